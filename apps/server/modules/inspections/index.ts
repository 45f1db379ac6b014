export { findingById, findingsOfRepairOrder } from './queries/findings.query.js';
export { openFindingsOfVehicle } from './queries/vehicle-findings.query.js';
export { openPhoto, type OpenPhoto } from './queries/photos.query.js';
export { completeInspection } from './use-cases/complete-inspection.js';
export { putObservation } from './use-cases/put-observation.js';
export { recordFinding } from './use-cases/record-finding.js';
export { saveTemplate } from './use-cases/save-template.js';
export { startInspection } from './use-cases/start-inspection.js';
