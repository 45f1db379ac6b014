export { addBay } from './use-cases/add-bay.js';
export { addSpecialTool } from './use-cases/add-special-tool.js';
export { setShifts } from './use-cases/set-shifts.js';
export { setSkills } from './use-cases/set-skills.js';
