export * from './check-tardiness.js';
export * from './lateness-of.js';
export * from './solve-tardiness.js';
export * from './tardiness-bound.js';
export * from './tardiness-problem.js';
