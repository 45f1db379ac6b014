export { addBay } from './use-cases/add-bay.js';
