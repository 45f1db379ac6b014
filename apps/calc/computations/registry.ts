import { allocate } from './allocate.js';
import { budget } from './budget.js';
import type { Computation } from './computation.js';
import { checkSchedule } from './check-schedule.js';
import { hours } from './hours.js';
import { invoiceTax } from './invoice-tax.js';
import { labour } from './labour.js';
import { ladder } from './ladder.js';
import { margin } from './margin.js';
import { matrix } from './matrix.js';
import { punch } from './punch.js';
import { range } from './range.js';
import { supplies } from './supplies.js';
import { schedule } from './schedule.js';
import { tax } from './tax.js';
import { vin } from './vin.js';
import { whatIf } from './what-if.js';
import { wilson } from './wilson.js';

/** Every computation of the command. A new one is a file beside these and a line here. */
export const COMPUTATIONS: readonly Computation[] = [
  vin,
  labour,
  allocate,
  tax,
  invoiceTax,
  punch,
  hours,
  wilson,
  budget,
  ladder,
  supplies,
  margin,
  matrix,
  range,
  schedule,
  checkSchedule,
  whatIf,
];
