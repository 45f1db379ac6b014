/** What the page can be read without at first: it is fetched while the plan is on its way. */
export { HowItIsMade } from './how-it-is-made.js';
export { OverdueParts } from './overdue-parts.js';
export { Notes } from './notes.js';
export { NotPlannedList } from './not-planned.js';
export { RunList } from './run-list.js';
