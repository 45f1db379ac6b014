export { PackageResponse } from './dto/package.js';
export { catalogueOperations, type KnownOperation } from './queries/catalogue-operations.query.js';
export { packagesInUse } from './queries/packages.query.js';
export { stepRates, type StepRate } from './queries/step-rates.query.js';
export { addOperation } from './use-cases/add-operation.js';
export { addPackage } from './use-cases/add-package.js';
export { addStep } from './use-cases/add-step.js';
