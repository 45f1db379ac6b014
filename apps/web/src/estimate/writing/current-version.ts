import type { Estimate, Line } from '../../api/estimate-types.js';

/** The version of a line's revision as it was read last. */
export const currentVersion = (estimate: Estimate, line: Line): number =>
  estimate.revisions.find((one) => one.id === line.revisionId)?.version ?? line.version;
