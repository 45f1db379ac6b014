export * from './check-project.js';
export * from './project-problem.js';
export * from './solve-project.js';
