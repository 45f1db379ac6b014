import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { LowerPrice, PriceModel } from './price-model.js';

interface PlainLine {
  readonly cents?: Cents;
  readonly steps?: readonly string[];
}

interface PlainStep {
  readonly id: string;
  readonly cents: Cents;
}

/** Each line's own cents and each distinct step once: the price before tax and supplies. */
export function plainPrices(lines: readonly PlainLine[], steps: readonly PlainStep[]): PriceModel {
  const users = new Map<string, number[]>(steps.map(({ id }) => [id, []]));
  lines.forEach((line, at) => {
    for (const step of new Set(line.steps ?? [])) users.get(step)?.push(at);
  });
  const lower: LowerPrice = {
    base: 0,
    own: lines.map((line) => line.cents ?? 0),
    shared: steps.map(({ id, cents: amount }) => ({ amount, lines: users.get(id) ?? [] })),
    slack: 0,
  };
  return { exact: (chosen) => cents(valueOf(lower, chosen)), lowers: [lower] };
}

/** What a lower price says of one set. */
export function valueOf({ base, own, shared }: LowerPrice, chosen: readonly number[]): number {
  const wanted = new Set(chosen);
  const paid = shared.reduce((sum, { amount, lines }) => {
    return lines.some((line) => wanted.has(line)) ? sum + amount : sum;
  }, 0);
  return chosen.reduce((sum, line) => sum + (own[line] ?? 0), base + paid);
}
