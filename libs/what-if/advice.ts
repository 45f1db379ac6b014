import type { MeanInterval } from '#libs/statistics';
import type { FloorChange } from './changes.js';
import type { Figures } from './figures.js';

export interface Advice {
  readonly code:
    | 'too-few-years'
    | 'not-sure'
    | 'changes-nothing'
    | 'more-work-done'
    | 'technicians-scarcer'
    | 'lifts-scarcer';
  readonly words: string;
}

type Differences = Readonly<Record<keyof Figures, MeanInterval>>;

/** What a manager comes for; the other figures say why. */
const AIMS = ['lateHoursPerWeek', 'keptPercent', 'readyPerWeek'] as const;

/** From this part of the base on, a difference that is not sure is no proof that there is none. */
const LARGE = 0.05;

const isSure = ({ bounds }: MeanInterval): boolean => bounds !== null && (bounds.lo > 0 || bounds.hi < 0);

/** What is worth knowing about an alternative besides its figures. */
export function adviceOn(
  changes: readonly FloorChange[],
  base: Figures,
  differences: Differences,
): readonly Advice[] {
  const said: Advice[] = [];
  const { turnedAway, liftIdleHoursPerWeek } = differences;
  if (turnedAway.bounds === null)
    said.push({
      code: 'too-few-years',
      words: 'One year cannot say how sure this is. Ask for several.',
    });
  if (turnedAway.mean < 0)
    said.push({
      code: 'more-work-done',
      words: `${Math.round(-turnedAway.mean)} repair orders a year that nobody here could do now are done, and they take their time from the others.`,
    });
  if (turnedAway.bounds === null || AIMS.some((aim) => isSure(differences[aim])) || turnedAway.mean !== 0)
    return said;
  if (AIMS.some((aim) => Math.abs(differences[aim].mean) > LARGE * Math.abs(base[aim])))
    return [
      ...said,
      {
        code: 'not-sure',
        words: 'These years differ too much to be sure that this is not chance. Ask for more of them.',
      },
    ];
  const rises = liftIdleHoursPerWeek.mean;
  const idle = rises > 0.05 ? ` The lifts are idle ${rises.toFixed(1)} hours a week longer.` : '';
  said.push({
    code: 'changes-nothing',
    words: `Over these years it makes no difference worth naming to lateness, promises or cars ready.${idle}`,
  });
  return [...said, ...scarcer(changes, base)];
}

/** What the work waits for instead, when one thing is used far more than what was added. */
function scarcer(changes: readonly FloorChange[], base: Figures): Advice[] {
  const { liftWorkHoursPerWeek: work, liftBlockedHoursPerWeek: blocked, liftIdleHoursPerWeek: idle } = base;
  const lifts = work + blocked + idle === 0 ? 0 : (100 * (work + blocked)) / (work + blocked + idle);
  const people = base.technicianUsedPercent;
  const has = (kind: FloorChange['kind']): boolean => changes.some((change) => change.kind === kind);
  const shares = `lifts are taken ${Math.round(lifts)} % of the time, technicians work ${Math.round(people)} % of theirs`;
  if (has('bay') && !has('technician') && people > lifts)
    return [
      {
        code: 'technicians-scarcer',
        words: `As it is, ${shares}: a bay alone finds nobody to work in it. Try it with one more technician.`,
      },
    ];
  if (has('technician') && !has('bay') && lifts > people)
    return [
      {
        code: 'lifts-scarcer',
        words: `As it is, ${shares}: one more technician alone finds no free lift. Try it with one more bay.`,
      },
    ];
  return [];
}
