export * from './chance.js';
export * from './seeded.js';
