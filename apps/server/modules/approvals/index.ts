export { decideForOwner } from './use-cases/decide-for-owner.js';
export { recordDecisions, type Answers, type Way } from './use-cases/record-decisions.js';
