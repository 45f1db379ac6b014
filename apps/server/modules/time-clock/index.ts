export { clockOn } from './use-cases/clock-on.js';
export { clockOff } from './use-cases/clock-off.js';
export { comeIn } from './use-cases/come-in.js';
