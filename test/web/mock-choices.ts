import type { Choices, Range, Rung, SpendingSet } from '../../apps/web/src/api/estimate-types.js';
import { id } from './mock-data.js';
import { DRAFT, ORDER } from './mock-ids.js';
import type { MockDesk } from './mock-estimate.js';
import type { MockLine } from './mock-lines.js';
import { priced } from './mock-prices.js';

/** All sets of the few lines, tried one after the other: as right as it is slow. */
interface Tried {
  readonly chosen: string[];
  readonly priceCents: number;
  readonly benefit: number;
  readonly drivable: boolean;
}

function allSets(lines: readonly MockLine[]): Tried[] {
  const sets: Tried[] = [];
  for (let bits = 0; bits < 2 ** lines.length; bits += 1) {
    const inSet = lines.filter((_, n) => Math.floor(bits / 2 ** n) % 2 === 1);
    const chosen = inSet.map((line) => line.id);
    if (inSet.some((line) => line.requires?.some((needed) => !chosen.includes(needed)))) continue;
    sets.push({
      chosen,
      priceCents: priced(lines, chosen).totals.totalCents,
      benefit: inSet.reduce((sum, line) => sum + line.benefit, 0),
      drivable: lines.every((line) => line.word !== 'Unsafe' || chosen.includes(line.id)),
    });
  }
  return sets.sort((a, b) => a.priceCents - b.priceCents || b.benefit - a.benefit);
}

const ratio = (desk: MockDesk, priceCents: number): number | null =>
  desk.valueCents === null ? null : Math.round((priceCents / desk.valueCents) * 1_000_000);

export function choicesOf(desk: MockDesk, budgetCents: number | null): Choices {
  const sets = allSets(desk.lines);
  const safe = sets.filter((set) => set.drivable);
  const all = desk.lines.map((line) => line.id);
  return {
    repairOrderId: ORDER,
    revisionId: DRAFT,
    currency: 'EUR',
    vehicleValueCents: desk.valueCents,
    given: [],
    givenCents: 0,
    leastSafeCents: safe[0]?.priceCents ?? null,
    allCents: priced(desk.lines, all).totals.totalCents,
    sets:
      budgetCents === null
        ? []
        : [
            best(desk, safe, 'drivable', budgetCents),
            best(desk, sets, 'not-to-be-driven', budgetCents),
          ].filter((set) => set !== null),
    ladder: { kind: 'drivable', proven: true, rungs: rungsOf(desk, safe) },
  };
}

function best(
  desk: MockDesk,
  sets: readonly Tried[],
  kind: SpendingSet['kind'],
  budgetCents: number,
): SpendingSet | null {
  const fits = sets.filter((set) => set.priceCents <= budgetCents && set.drivable === (kind === 'drivable'));
  const top = fits.reduce<Tried | undefined>((a, b) => (a && a.benefit >= b.benefit ? a : b), undefined);
  if (!top) return null;
  const figures = priced(desk.lines, top.chosen).lines;
  return {
    kind,
    chosen: top.chosen,
    leftOut: desk.lines.map((line) => line.id).filter((id) => !top.chosen.includes(id)),
    priceCents: top.priceCents,
    totalCents: top.priceCents,
    ratioOfValuePpm: ratio(desk, top.priceCents),
    benefit: top.benefit,
    proven: true,
    upperBound: top.benefit,
    lines: desk.lines
      .filter((line) => top.chosen.includes(line.id))
      .map((line) => ({
        lineId: line.id,
        title: line.title,
        benefit: line.benefit,
        why: line.why,
        mustInclude: line.word === 'Unsafe',
        totalCents: figures.find((one) => one.lineId === line.id)?.figures?.totalCents ?? 0,
      })),
  };
}

function rungsOf(desk: MockDesk, sets: readonly Tried[]): Rung[] {
  const rungs: Rung[] = [];
  for (const set of sets) {
    const last = rungs.at(-1);
    if (last && set.benefit <= last.benefit) continue;
    rungs.push({
      priceCents: set.priceCents,
      benefit: set.benefit,
      chosen: set.chosen,
      added: set.chosen.filter((one) => !last?.chosen.includes(one)),
      dropped: last?.chosen.filter((one) => !set.chosen.includes(one)) ?? [],
      ratioOfValuePpm: ratio(desk, set.priceCents),
    });
  }
  return rungs;
}

export const rangeOf = (desk: MockDesk, chosen: readonly string[]): Range =>
  rangeOfTotal(priced(desk.lines, chosen).totals.totalCents);

export function rangeOfTotal(priceCents: number): Range {
  const part = (share: number): number => Math.round(priceCents * share);
  return {
    p10Cents: part(0.96),
    p50Cents: part(1.05),
    p80Cents: part(1.15),
    p95Cents: part(1.27),
    meanCents: part(1.07),
    priceCents,
    agreedCents: 0,
    draws: 10_000,
    seed: 7,
    shares: [
      {
        kind: 'common',
        id: null,
        words: 'Corrosion and age: how easily everything comes apart',
        sharePpm: 412_000,
      },
      {
        kind: 'contingency',
        id: id(4, 2),
        words: 'The line nut seizes and the pipe has to be made',
        sharePpm: 305_000,
      },
      { kind: 'line', id: id(3, 3), words: 'Front control arm bushes, both sides', sharePpm: 121_000 },
      { kind: 'unseen', id: null, words: 'Not seen: the rear axle bushes', sharePpm: 80_000 },
    ],
  };
}
