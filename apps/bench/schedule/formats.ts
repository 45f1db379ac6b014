import type { Format } from './format.js';
import { FLEXIBLE_JOB_SHOP, JOB_SHOP } from './machine-formats.js';
import { PLAN } from './plan-format.js';
import { MULTI_MODE, PATTERSON, SINGLE_MODE } from './project-formats.js';
import { TARDINESS } from './tardiness-format.js';

/** Every layout that is known. The first that can read a text has it, so the stricter stand before the laxer. */
export const FORMATS: readonly Format[] = [
  JOB_SHOP,
  FLEXIBLE_JOB_SHOP,
  SINGLE_MODE,
  MULTI_MODE,
  PATTERSON,
  TARDINESS,
  PLAN,
];
