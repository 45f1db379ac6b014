export { ContingenciesModule } from './contingencies.module.js';
