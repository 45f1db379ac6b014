import type { Fault, Result } from '#libs/kernel';
import {
  explainPlan,
  offers,
  plan,
  replan,
  type Offer,
  type OfferWish,
  type Plan,
  type PlanAnswer,
  type PlanExplanation,
  type PlanProblem,
  type PlanProblemFault,
  type PlanRepairOrder,
  type Replanned,
  type ReplanWish,
} from '#libs/plan';

/** How long each question is worked on; the best found by then is the answer. */
export const REPLAN_MS = 80;
export const IMPROVE_MS = 2000;
export const OFFERS_MS = 400;
/** Any will do; the same one with the same work done gives the same answer. */
const SEED = 1;

interface Effort {
  /** Whole, from zero up. */
  readonly seed?: number;
  /** Ends the search after so many schedules, so that a test has the same answer however busy the machine is. */
  readonly lookLimit?: number;
}

/** One question for the thread: plain data. */
export type AskedOfPlan =
  | ({
      readonly what: 'replan';
      readonly problem: PlanProblem;
      /** With `improve` it is worked on longer, apart from the others. */
      readonly wish?: ReplanWish;
    } & Effort)
  | ({ readonly what: 'plan'; readonly problem: PlanProblem } & Effort)
  | ({
      readonly what: 'offers';
      readonly problem: PlanProblem;
      readonly current: Plan;
      readonly newOrder: PlanRepairOrder;
      readonly wish?: OfferWish;
    } & Effort)
  | { readonly what: 'explain'; readonly problem: PlanProblem; readonly plan: Plan };

/** What comes back for each kind of question. */
export interface FoundInPlan {
  readonly replan: Result<Replanned, PlanProblemFault>;
  readonly plan: Result<PlanAnswer, PlanProblemFault>;
  readonly offers: Result<Offer[], PlanProblemFault | Fault<'no-place'>>;
  readonly explain: PlanExplanation;
}

export interface Numbered<T> {
  readonly id: number;
  readonly about: T;
}

const now = (): number => performance.now();
const effort = (timeLimitMs: number, { seed = SEED, lookLimit }: Effort) => ({
  ...{ timeLimitMs, now, seed },
  ...(lookLimit === undefined ? {} : { lookLimit }),
});

export const isLong = (asked: AskedOfPlan): boolean =>
  asked.what === 'replan' && asked.wish?.improve === true;

export function compute(asked: AskedOfPlan): FoundInPlan[AskedOfPlan['what']] {
  switch (asked.what) {
    case 'replan':
      return replan(asked.problem, effort(isLong(asked) ? IMPROVE_MS : REPLAN_MS, asked), asked.wish);
    case 'plan':
      return plan(asked.problem, effort(REPLAN_MS, asked));
    case 'offers':
      return offers(asked.problem, asked.current, asked.newOrder, effort(OFFERS_MS, asked), asked.wish);
    case 'explain':
      return explainPlan(asked.problem, asked.plan);
  }
}
