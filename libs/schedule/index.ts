export * from './add-months.js';
export * from './bay-faults.js';
export * from './fit-assignment.js';
export * from './needs.js';
export * from './needs-of-operations.js';
export * from './technician-faults.js';
