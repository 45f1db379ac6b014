/** What the page can be read without at first: it is fetched while the first answers are on their way. */
export { Breakdown } from './breakdown.js';
export { MadeOf } from './made-of.js';
export { RangeRule } from './range-rule.js';
export { Spending } from './spending/spending.js';
