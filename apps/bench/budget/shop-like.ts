import { cents } from '#libs/kernel';
import { seeded } from '#libs/chance';
import type { BudgetProblem, ChoiceLine, ChoiceStep } from '#libs/choice';

/** Book time and parts of an invented shop, in whole currency units: labour 10 to 220 a step, parts 5 to 600 a line. */
const STEP = { low: 15, high: 220 } as const;
const PARTS = { low: 5, high: 600 } as const;
/** The budget buys about this much of everything. */
const SHARE = { low: 0.25, high: 0.6 } as const;

type Draw = (low: number, high: number) => number;

interface Shop {
  readonly lines: ChoiceLine[];
  readonly steps: ChoiceStep[];
}

/**
 * An estimate as a shop would write it, about two steps for each line, always the same for a seed: groups of lines behind
 * the same dismantling (the deeper the work, the more of the chain it needs), a few steps that any group may share, now
 * and then a line that needs its neighbour, stands in for it, or must be in.
 */
export function shopLike(lines: number, seed: number): BudgetProblem {
  const random = seeded(seed * 7919 + lines);
  const draw: Draw = (low, high) => low + Math.floor(random() * (high - low + 1));
  const shop: Shop = { lines: [], steps: [] };
  const everywhere = [newStep(shop, draw), newStep(shop, draw), newStep(shop, draw)];
  while (shop.lines.length < lines) {
    addGroup(shop, everywhere, Math.min(lines - shop.lines.length, draw(3, 8)), draw, random);
  }
  const all = [
    ...shop.lines.map((line) => line.cents ?? 0),
    ...shop.steps.map((step): number => step.cents),
  ].reduce((sum, amount) => sum + amount, 0);
  return { ...shop, budgetCents: cents(Math.round(all * (SHARE.low + random() * (SHARE.high - SHARE.low)))) };
}

function newStep({ steps }: Shop, draw: Draw): string {
  const id = `step ${steps.length + 1}`;
  steps.push({ id, cents: cents(draw(STEP.low, STEP.high) * 100) });
  return id;
}

function addGroup(
  shop: Shop,
  everywhere: readonly string[],
  size: number,
  draw: Draw,
  random: () => number,
): void {
  const chain = Array.from({ length: draw(2, 6) }, () => newStep(shop, draw));
  const beside = [newStep(shop, draw), newStep(shop, draw)];
  for (let at = 0; at < size; at++) {
    const before = shop.lines.at(-1)?.id;
    const depth = draw(1, chain.length);
    const steps = [
      ...chain.slice(0, depth),
      ...beside.filter(() => random() < 0.3),
      ...everywhere.filter(() => random() < 0.12),
      newStep(shop, draw),
    ];
    const tie = random();
    shop.lines.push({
      id: `line ${shop.lines.length + 1}`,
      benefit: random() < 0.15 ? draw(200, 600) : draw(5, 150),
      cents: cents(draw(PARTS.low, PARTS.high) * 100 + draw(0, 99)),
      steps,
      requires: at > 0 && before !== undefined && tie < 0.08 ? [before] : [],
      excludes: at > 0 && before !== undefined && tie > 0.95 ? [before] : [],
      mustInclude: at === 0 && random() < 0.1,
    });
  }
}
