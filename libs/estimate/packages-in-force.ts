import type { PreparedPackage } from './prepare-packages.js';

interface Family {
  readonly packages: readonly PreparedPackage[];
  readonly money: bigint;
  readonly hundredths: number;
}

const NONE: Family = { packages: [], money: 0n, hundredths: 0 };

function overlaps(one: PreparedPackage, other: PreparedPackage): boolean {
  const ids = new Set(one.package.lineIds);
  return other.package.lineIds.some((id) => ids.has(id));
}

const savesMore = (one: Family, other: Family): boolean =>
  one.money === other.money ? one.hundredths > other.hundredths : one.money > other.money;

/** Of packages that all could hold, those without a line in common that save the owner most. */
function bestFamily(candidates: readonly PreparedPackage[]): Family {
  const [first, ...others] = candidates;
  if (first === undefined) return NONE;
  const beside = others.filter((other) => !overlaps(first, other));
  const rest = bestFamily(beside);
  const taken: Family = {
    packages: [first, ...rest.packages],
    money: first.savedMoney + rest.money,
    hundredths: first.savedHundredths + rest.hundredths,
  };
  if (first.isBegun || beside.length === others.length) return taken;
  const without = bestFamily(others);
  return savesMore(without, taken) ? without : taken;
}

/**
 * The packages that a choice puts in force. A line counts in one of them only: of packages that overlap, those hold
 * that save most, and before all others those that were agreed to in part. Since a package never saves more than any of its lines
 * adds, a further line never lowers the sum.
 */
export function packagesInForce(
  packages: readonly PreparedPackage[],
  isChosen: (at: number) => boolean,
): readonly PreparedPackage[] {
  if (packages.length === 0) return packages;
  const candidates = packages.filter(
    ({ lines, outsiders }) => lines.every(isChosen) && !outsiders.some(isChosen),
  );
  return candidates.length < 2 ? candidates : bestFamily(candidates).packages;
}
