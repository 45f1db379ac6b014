import type { PreparedEstimate } from '#libs/estimate';

/** More packages than this are not told apart: with each the lower prices double. */
const TOLD_APART = 3;

type Package = PreparedEstimate['packages'][number];

/** One way in which packages can hold, and the hours that each step is sold at then, or more. */
export interface PackageSide {
  readonly hours: readonly number[];
  /** Places of lines in the prepared estimate: all of these are in, none of those. */
  readonly lines: readonly number[];
  readonly outsiders: readonly number[];
}

const overlap = (one: Package, other: Package): boolean =>
  one.package.lineIds.some((id) => other.package.lineIds.includes(id));

/** Every set of packages that can hold together, nothing of them included. */
function families(packages: readonly Package[]): Package[][] {
  return packages.reduce<Package[][]>(
    (known, own) => [
      ...known,
      ...known
        .filter((family) => !family.some((other) => overlap(own, other)))
        .map((family) => [...family, own]),
    ],
    [[]],
  );
}

/**
 * The ways in which the packages of an estimate can hold: for every choice one of them gives each step no more hours
 * than the choice sells it at. Packages that save most are told apart; any other counts as if it held.
 */
export function packageSides({ steps, packages }: PreparedEstimate): PackageSide[] {
  const byMoney = [...packages].sort((a, b) =>
    a.savedMoney === b.savedMoney ? 0 : a.savedMoney > b.savedMoney ? -1 : 1,
  );
  const told = byMoney.slice(0, TOLD_APART);
  const least = steps.map(({ hundredths }) => Math.max(0, hundredths));
  for (const { hours } of byMoney.slice(TOLD_APART))
    for (const [step, sold] of hours) least[step] = Math.min(least[step] ?? 0, sold);
  return families(told).map((family) => {
    const hours = [...least];
    for (const own of family)
      for (const [step, sold] of own.hours) hours[step] = Math.min(hours[step] ?? 0, sold);
    return {
      hours,
      lines: [...new Set(family.flatMap((own) => own.lines))],
      outsiders: [...new Set(family.flatMap((own) => own.outsiders))],
    };
  });
}
