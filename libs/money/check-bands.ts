import { fail, ok, type Fault, type FieldFault, type Result } from '#libs/kernel';
import type { PriceBand } from './price-band.js';

export type MatrixFault = Fault<'matrix-invalid'>;

/** Above these an entry is a slip of the keyboard: a band that starts at a million, a price of a thousand times the cost. */
const LARGEST = { fromCents: 100_000_000, multiplierPpm: 1_000_000_000 } as const;

function faultsOf(
  { fromCents, multiplierPpm }: PriceBand,
  before: PriceBand | undefined,
): [string, string][] {
  const faults: [string, string][] = [];
  if (!Number.isSafeInteger(fromCents) || fromCents < 0 || fromCents > LARGEST.fromCents) {
    faults.push(['fromCents', `A band starts at a whole number of cents from 0 to ${LARGEST.fromCents}.`]);
  } else if (before === undefined && fromCents !== 0) {
    faults.push([
      'fromCents',
      'The first band starts at a cost of 0: otherwise the cheapest parts have no price.',
    ]);
  } else if (before !== undefined && fromCents <= before.fromCents) {
    faults.push([
      'fromCents',
      `This band must start above ${before.fromCents} cents, where the one before it starts.`,
    ]);
  }
  if (!Number.isSafeInteger(multiplierPpm) || multiplierPpm <= 0 || multiplierPpm > LARGEST.multiplierPpm) {
    faults.push([
      'multiplierPpm',
      `A multiplier is a whole number of millionths from 1 to ${LARGEST.multiplierPpm}: 2.2 times the cost is 2200000.`,
    ]);
  }
  return faults;
}

/** Whether bands make a price matrix: at least one, the first from a cost of 0, each starting above the one before. */
export function checkBands<B extends PriceBand>(bands: readonly B[]): Result<readonly B[], MatrixFault> {
  if (bands.length === 0) {
    return fail(
      'matrix-invalid',
      'A price matrix has at least one band: add one that starts at a cost of 0.',
      {
        fields: [{ pointer: '/bands', detail: 'Add a band that starts at a cost of 0.' }],
      },
    );
  }
  const fields = bands.flatMap((band, at): FieldFault[] =>
    faultsOf(band, bands[at - 1]).map(([field, detail]) => ({ pointer: `/bands/${at}/${field}`, detail })),
  );
  return fields.length === 0
    ? ok(bands)
    : fail('matrix-invalid', 'These bands make no price matrix.', { fields });
}
