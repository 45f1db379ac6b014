import { worthwhileSteps, type FoundRung } from '#libs/choice';
import type { Solved } from '../../estimates/index.js';
import { html, type Html } from './html.js';
import type { OwnerModel } from './model.js';
import { plainSum, type Spend } from './spend.js';
import { SPEND_WORDS as SAY } from './words.js';

const PER_CENT_PPM = 10_000;
/** More than that nobody reads on a telephone. */
const MOST_STEPS = 12;

/** What a step is or adds, in words. */
function stepWords(
  step: FoundRung,
  at: number,
  steps: readonly FoundRung[],
  {
    found,
    lines,
    isSafer,
  }: { readonly found: Solved; readonly lines: Spend['lines']; readonly isSafer: boolean },
): string {
  const titles = (ids: readonly string[]): string =>
    lines.flatMap(({ id, title }) => (ids.includes(id) ? [title] : [])).join('; ');
  const changes = [
    ...(step.added.length > 0 ? [at === 0 ? titles(step.added) : SAY.adds(titles(step.added))] : []),
    ...(step.dropped.length > 0 ? [SAY.swaps(titles(step.dropped))] : []),
  ].join(', ');
  const offered = new Set([...found.ladder.rungs.flatMap(({ chosen }) => chosen)]);
  const isTop = at === steps.length - 1;
  const whole = step.chosen.length === offered.size ? SAY.all : SAY.most;
  const label = isTop ? whole : at === 0 && isSafer ? SAY.first : null;
  return [label, changes].filter((words) => words !== null && words !== '').join(': ');
}

/** The worthwhile steps of the ladder, each a link that shows the best set for its price. */
export function ladderPart(
  { formats, token, approval }: OwnerModel,
  spend: Spend,
  found: Solved,
): Html | false {
  const steps = worthwhileSteps(found.ladder.rungs, MOST_STEPS).filter(({ chosen }) => chosen.length > 0);
  if (steps.length < 2) return false;
  const isSafe = found.ladder.kind === 'drivable';
  // Where nothing unsafe is left to do, no step may claim to make the car safe.
  const isSafer = isSafe && (found.leastSafeCents ?? 0) > 0;
  const isUnsafe = !isSafe && spend.lines.some(({ mustInclude }) => mustInclude);
  const { vehicleValueCents } = approval.document;
  // Beside what is agreed to, these steps are not all of it; the whole and the car's worth stand further up.
  const isWhole = [...approval.offer.standing.values()].every(({ answer }) => answer !== 'approved');
  const value = isWhole ? (vehicleValueCents ?? 0) : 0;
  const part = value > 0 ? Math.round((found.ladder.allCents * 1_000_000) / value / PER_CENT_PPM) : 0;
  return html`<details class="steps">
    <summary>${isSafer ? SAY.steps : SAY.stepsParked}</summary>
    ${isUnsafe && html`<p class="alert">${SAY.stepsNotSafe}</p>`}
    <p>${SAY.stepsLead}${!found.ladder.proven && html` ${SAY.stepsNotProven}`}</p>
    <ol>
      ${steps.map(
        (step, at) =>
          html`<li>
            <a href="/o/${token}?spend=${plainSum(step.priceCents)}#spend"
              >${formats.money(step.priceCents)}</a
            >
            ${stepWords(step, at, steps, { found, lines: spend.lines, isSafer })}
          </li>`,
      )}
    </ol>
    ${value > 0 && html`<p class="small">${SAY.value(formats.money(value), formats.whole(part))}</p>`}
  </details>`;
}
