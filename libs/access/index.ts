export * from './actions.js';
export * from './actions-of.js';
export * from './can.js';
export * from './is-role.js';
export * from './roles.js';
