import { ok } from '#libs/kernel';
import { compareWhatIfs, USUAL_REPLAY } from '#libs/what-if';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readAlternative, readFloor, readYear } from './read-what-if.js';

const PERIOD = 'weekday: 1..7, from, to';
const SPREAD = 'shape?: "fixed" | "lognormal" | "exponential", spreadPpm?';
const USUAL_SEEDS = [1, 2, 3, 4, 5];
const MOST_SEEDS = 50;

/** The same years on a floor and on what it would be otherwise. A year is replayed in seconds, so many take a while. */
export const whatIf: Computation = {
  name: 'what-if',
  shape:
    `{floor: {opening: [{${PERIOD}}], technicians: [{id, hours: [{${PERIOD}}], skills?, away?: [[from, to]]}], ` +
    `bays: [{id, kind?, maxHeightMm?, lift?: {kind, capacityKg}}], tools?: [{id, kind}]}, ` +
    `year: {weeks, arrivals: [{${PERIOD}, perDayThousandths}], booked?: {sharePpm, days}, ` +
    `kinds: [{name, share, weight?, promisedDays?, vehicle?: {weightKg, heightMm?}, operations: [{id, hours: {minutes, ${SPREAD}}, after?, ` +
    `bay?: {lift?, liftKind?, kinds?}, skills?, crew?: 1|2, helperSkills?, tools?, teardown?, ` +
    `parts?: {sharePpm, leastMinutes, mostMinutes}}]}], overrun?: {meanPpm, ${SPREAD}}, ` +
    `promise: {leastDays, minutesPerDay, timeOfDay}, vehicles?: [{weightKg, heightMm?}], closedDays?: [day]}, ` +
    `alternatives: [{name, changes: [{kind: "bay" | "technician", like} | {kind: "bay-away", bay} | ` +
    `{kind: "technician-away", technician} | {kind: "day-open", ${PERIOD}, technicians?} | {kind: "tool", tool}]}], ` +
    `seeds?: [1, 2, 3, 4, 5], patience?: ${USUAL_REPLAY.patience}, mostOrders?: ${USUAL_REPLAY.mostOrders}} -> ` +
    `{base: {figure: value}, alternatives: [{name, changes, figures, differences: {figure: {mean, bounds: {lo, hi} | null}}, advice}], seeds, weeks, arrived, ms}`,
  run: (element) => {
    const read = new FieldReader(element);
    const floor = read.object('floor', readFloor);
    const year = read.object('year', readYear);
    const alternatives = read.objects('alternatives', readAlternative);
    const seeds = read.has('seeds') ? read.wholesIn('seeds', { min: 0 }) : USUAL_SEEDS;
    if (seeds.length > MOST_SEEDS) read.invalid('seeds', `must have at most ${MOST_SEEDS} entries`);
    const patience = read.optionalWhole('patience', { min: 10, max: 1000 }) ?? USUAL_REPLAY.patience;
    const mostOrders = read.optionalWhole('mostOrders', { min: 1, max: 1000 }) ?? USUAL_REPLAY.mostOrders;
    return read.answer(() => {
      const start = performance.now();
      const effort = { ...USUAL_REPLAY, patience, mostOrders };
      const compared = compareWhatIfs(floor, year, alternatives, { seeds, effort });
      if (!compared.ok) return compared;
      return ok({ ...compared.value, ms: Math.round(performance.now() - start) });
    });
  },
};
