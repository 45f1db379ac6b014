import { fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import type { ChoicePrice, LinePrice } from '#libs/estimate';
import { decide } from './decide.js';
import type { Answer } from './decision.js';
import { sameFigures, shownFigures } from './shown-figures.js';
import type { ShownFigures } from './shown-figures.js';
import { saysTheSame } from './standing-decision.js';
import type { GivenAnswer, Standing, StandingDecision } from './standing-decision.js';

/** A decision that is to be recorded. */
export interface PlannedDecision {
  readonly lineId: string;
  readonly answer: Answer;
  readonly shown: ShownFigures;
  readonly lookAgainOn: string | null;
  /** `choice-changed`: the line was approved before; what it carries of the shared work is another figure now. */
  readonly because: 'answered' | 'choice-changed';
  /** What the decision means for the floor. */
  readonly floor: 'release' | 'withdraw' | 'nothing';
}

export interface PlanInput {
  readonly answers: readonly GivenAnswer[];
  /** Of the lines of this revision. */
  readonly standing: Standing;
  readonly begun: ReadonlySet<string>;
  /** The price of `chosenAfter` these answers, for all lines of the revision on which no work has begun. */
  readonly price: ChoicePrice;
}

/** A chosen line is shown with what it carries of the choice, any other with what it costs alone. */
const shownOf = (price: LinePrice): ShownFigures => shownFigures(price.chosen ? price : price.alone);

function refuseBegun({ answers, standing, begun }: PlanInput): Result<void, Fault<'work-already-begun'>> {
  const late = answers.filter(({ lineId, answer }) => {
    const current = standing.get(lineId)?.answer ?? null;
    return !decide({ current, incoming: answer, workBegun: begun.has(lineId) }).ok;
  });
  if (late.length === 0) return ok(undefined);
  const lineIds = late.map(({ lineId }) => lineId);
  return fail(
    'work-already-begun',
    'Work on this line has begun, so its answer can no longer be changed here. Please call the shop.',
    { facts: { lineIds } },
  );
}

/** What an answer to a line with this price comes to: one decision, or none where it says nothing new. */
function plan(
  given: GivenAnswer,
  because: PlannedDecision['because'],
  current: StandingDecision | undefined,
  price: LinePrice,
): PlannedDecision[] {
  const { lineId, answer } = given;
  const shown = shownOf(price);
  const isSame = saysTheSame(given, current);
  const figureChanged = answer === 'approved' && current !== undefined && !sameFigures(current, shown);
  const outcome = decide({
    current: current?.answer ?? null,
    incoming: answer,
    workBegun: false,
    figureChanged: figureChanged || !isSame,
  });
  if (!outcome.ok || outcome.value === 'repeat') return [];
  const wasApproved = current?.answer === 'approved';
  const floor = answer === 'approved' ? 'release' : wasApproved ? 'withdraw' : 'nothing';
  const lookAgainOn = answer === 'deferred' ? (given.lookAgainOn ?? null) : null;
  return [{ lineId, answer, shown, lookAgainOn, because, floor }];
}

/**
 * The decisions that follow from a set of answers: one for each answer that says something new, and one for each line
 * approved before whose figures change with the choice (the owner was shown them). A line on which work has begun keeps
 * its answer and its figures; another answer to it is refused, and with it the whole set, so that what is recorded is
 * what was shown. Lines are in the order of the price.
 */
export function planDecisions(input: PlanInput): Result<PlannedDecision[], Fault<'work-already-begun'>> {
  const allowed = refuseBegun(input);
  if (!allowed.ok) return allowed;
  const answered = new Map(input.answers.map((given) => [given.lineId, given]));
  return ok(
    input.price.lines.flatMap((price): PlannedDecision[] => {
      const current = input.standing.get(price.id);
      const given = answered.get(price.id);
      if (given !== undefined) return plan(given, 'answered', current, price);
      if (current?.answer !== 'approved') return [];
      return plan({ lineId: price.id, answer: 'approved' }, 'choice-changed', current, price);
    }),
  );
}
