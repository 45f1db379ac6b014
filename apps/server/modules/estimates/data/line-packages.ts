import { MOST_PACKAGES, packageRange, type EstimateLine, type LinePackage } from '#libs/estimate';
import { bookHundredths } from '#libs/kernel';
import type { PackageResponse } from '../../catalogue/index.js';
import type { LineFacts } from '../queries/lines.query.js';

interface Placed {
  readonly operationId: string;
  readonly positions: readonly string[];
}

const placesOf = (operations: readonly Placed[]): string[] =>
  operations.flatMap(({ operationId, positions }) =>
    // An operation without a position is done once, at the vehicle.
    (positions.length === 0 ? ['vehicle'] : positions).map((position) => `${operationId} ${position}`),
  );

/**
 * The packages that lines of a revision form: of each, the lines without entered hours that do nothing but what belongs to it,
 * where together they do all of it. One whose hours the lines could not have, because the catalogue changed since, is
 * left out: the steps are sold by themselves. Those that save the most come first.
 */
export function packagesOfLines(
  facts: readonly LineFacts[],
  lines: readonly EstimateLine[],
  packages: readonly PackageResponse[],
): LinePackage[] {
  const formed = packages.flatMap(({ name, hundredths, operations }) => {
    const wanted = new Set(placesOf(operations));
    const own = facts.filter(
      (line) =>
        line.enteredHundredths === null &&
        line.operations.length > 0 &&
        placesOf(line.operations).every((place) => wanted.has(place)),
    );
    const done = new Set(own.flatMap((line) => placesOf(line.operations)));
    if (own.length === 0 || done.size < wanted.size) return [];
    const lineIds = own.map(({ id }) => id);
    const { low, high } = packageRange(lines.filter(({ id }) => lineIds.includes(id)));
    return hundredths < low || hundredths > high
      ? []
      : [{ saves: high - hundredths, formed: { name, lineIds, hundredths: bookHundredths(hundredths) } }];
  });
  return formed
    .sort((one, other) => other.saves - one.saves)
    .slice(0, MOST_PACKAGES)
    .map((one) => one.formed);
}
