export * from './seeded.js';
