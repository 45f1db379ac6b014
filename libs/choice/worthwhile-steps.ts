import type { FoundRung } from './found-set.js';

/**
 * The rungs of a ladder on which each step buys more for its money than any longer one would: its upper hull, from the
 * lowest rung to the highest. A ladder of ten lines can have fifty rungs, most of which swap something for a little; these
 * few are what somebody can read. Of more than `most`, those go that bend the hull least (the smallest triangle with their
 * neighbours first, Visvalingam and Whyatt 1993). What is added and dropped is told against the step before.
 */
export function worthwhileSteps(rungs: readonly FoundRung[], most = Infinity): FoundRung[] {
  const steps = hullOf(rungs);
  while (steps.length > Math.max(2, most)) {
    const bends = steps.slice(1, -1).map((step, at) => bend(steps[at] ?? step, step, steps[at + 2] ?? step));
    const least = bends.reduce((best, one, at) => (one < (bends[best] ?? one) ? at : best), 0);
    steps.splice(least + 1, 1);
  }
  return steps.map((rung, at) => {
    const before = steps[at - 1]?.chosen ?? [];
    return {
      ...rung,
      added: rung.chosen.filter((id) => !before.includes(id)),
      dropped: before.filter((id) => !rung.chosen.includes(id)),
    };
  });
}

function hullOf(rungs: readonly FoundRung[]): FoundRung[] {
  const hull: FoundRung[] = [];
  for (const rung of rungs) {
    for (;;) {
      const [before, last] = [hull.at(-2), hull.at(-1)];
      if (before === undefined || last === undefined || bend(before, last, rung) > 0n) break;
      hull.pop();
    }
    hull.push(rung);
  }
  return hull;
}

/** Twice the triangle of three rungs: positive where the step to `b` buys more for its money than the one on to `c`. */
function bend(a: FoundRung, b: FoundRung, c: FoundRung): bigint {
  const gain = (from: FoundRung, to: FoundRung): bigint => BigInt(to.benefit - from.benefit);
  const cost = (from: FoundRung, to: FoundRung): bigint => BigInt(to.priceCents - from.priceCents);
  return gain(a, b) * cost(b, c) - gain(b, c) * cost(a, b);
}
