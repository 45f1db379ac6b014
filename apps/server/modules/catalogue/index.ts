export { catalogueOperations, type KnownOperation } from './queries/catalogue-operations.query.js';
export { addOperation } from './use-cases/add-operation.js';
export { addStep } from './use-cases/add-step.js';
