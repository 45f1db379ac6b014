export * from './caution.js';
export * from './caution-catalogue.js';
export * from './cautions-for.js';
