export { closedForm, type ClosedForm } from './closed-form.js';
export * from './labour-spread.js';
export * from './range-input.js';
export * from './range-of-choice.js';
export * from './range.js';
export * from './score-range.js';
export * from './seed-of.js';
export * from './spread.js';
export { triangularQuantiles } from './triangular.js';
