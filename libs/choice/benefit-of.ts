import { assertNever } from '#libs/kernel';
import { verdictWord } from '#libs/inspection';
import type { MayDrive, Verdict } from '#libs/inspection';

/** How much the shop thinks of each thing, on a scale of its own: whole numbers from zero up. */
export interface BenefitWeights {
  /** Work on something with which the car may not be driven. */
  readonly unsafe: number;
  /** Work on something with which the car may be driven to the shop only. */
  readonly toTheShopOnly: number;
  /** Work on something worn out with which the car may still be driven. */
  readonly repair: number;
  /** Work on something that could be left and looked at again. */
  readonly watch: number;
  /** Work that answers no finding: the owner asked for it, or it is upkeep. */
  readonly asked: number;
  /** What a consequence adds, by what waiting puts at stake. */
  readonly consequence: Readonly<Record<Consequence, number>>;
}

/** What happens if it waits, from nothing to harm to people. */
export const CONSEQUENCES = ['none', 'comfort', 'dearer-later', 'stranded', 'harm'] as const;
export type Consequence = (typeof CONSEQUENCES)[number];

/**
 * What a shop starts from, and edits. The scale is common sense, no source: what makes a car unsafe outweighs all of
 * comfort, and a benefit twice as large is worth about twice the money.
 */
export const FIRST_WEIGHTS: BenefitWeights = {
  unsafe: 1000,
  toTheShopOnly: 400,
  repair: 150,
  watch: 40,
  asked: 100,
  consequence: { none: 0, comfort: 20, 'dearer-later': 80, stranded: 150, harm: 500 },
};

/** The worst finding that a line answers; `verdict` null when it answers none. */
export interface AnsweredFinding {
  readonly verdict: Verdict | null;
  readonly mayDrive: MayDrive | null;
  readonly consequence?: Consequence;
}

export interface Benefit {
  readonly benefit: number;
  /** For the owner: why this line weighs what it weighs. */
  readonly why: string;
}

interface Standing {
  readonly weight: number;
  readonly words: string;
}

function standingOf({ verdict, mayDrive }: AnsweredFinding, weights: BenefitWeights): Standing {
  if (verdict === null) return { weight: weights.asked, words: 'You asked for this, or it is upkeep' };
  const word = verdictWord({ verdict, mayDrive });
  switch (word) {
    case 'Unsafe':
      return { weight: weights.unsafe, words: 'The car may not be driven as it is' };
    case 'Repair':
      return mayDrive === 'to-the-shop-only'
        ? {
            weight: weights.toTheShopOnly,
            words: 'The car should be driven to the shop only until this is done',
          }
        : { weight: weights.repair, words: 'This is worn out, and the car may still be driven' };
    case 'Watch':
      return { weight: weights.watch, words: 'This could be left for now and looked at again' };
    case 'Sound':
    case 'Not seen':
      return { weight: 0, words: 'Nothing was found that calls for this' };
    default:
      return assertNever(word);
  }
}

const STAKES: Readonly<Record<Consequence, string>> = {
  none: '',
  comfort: 'waiting costs comfort',
  'dearer-later': 'waiting makes it dearer',
  stranded: 'waiting may leave you by the road',
  harm: 'waiting may harm people',
};

/** What a line is worth to have done, by the shop's own weights, and the sentence that says so. */
export function benefitOf(finding: AnsweredFinding, weights: BenefitWeights = FIRST_WEIGHTS): Benefit {
  const { weight, words } = standingOf(finding, weights);
  const consequence = finding.consequence ?? 'none';
  const added = weights.consequence[consequence];
  const stake = STAKES[consequence];
  const benefit = weight + added;
  const parts = stake === '' ? words : `${words}; ${stake}`;
  const sum = stake === '' ? `${benefit}` : `${weight} + ${added} = ${benefit}`;
  return { benefit, why: `${parts}. This shop weighs it ${sum}.` };
}
