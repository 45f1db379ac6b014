export { outOfService } from './data/out-of-service.js';
export { addBay } from './use-cases/add-bay.js';
export { addSpecialTool } from './use-cases/add-special-tool.js';
export { closeDay } from './use-cases/close-day.js';
export { recordAbsence } from './use-cases/record-absence.js';
export { setShifts } from './use-cases/set-shifts.js';
export { setSkills } from './use-cases/set-skills.js';
export {
  bayClosuresDuring,
  toolClosuresDuring,
  type ClosureDuring,
  type ToolClosureDuring,
} from './queries/closures-during.query.js';
export {
  floorCalendar,
  type BayCalendar,
  type CalendarPeriod,
  type FloorCalendar,
  type TechnicianCalendar,
  type ToolCalendar,
} from './queries/floor-calendar.query.js';
