import { fail, ok, type Result } from '#libs/kernel';
import type { LabourFault, LabourOperation } from './labour-operation.js';

/** Operations as sets of distinct (step, position) pairs. */
export interface StepTable {
  /** Hours of each pair, in hundredths. */
  readonly hours: ReadonlyMap<string, bigint>;
  /** The pairs that each operation uses, by operation id. */
  readonly pairs: ReadonlyMap<string, ReadonlySet<string>>;
}

/** A key that no two different pairs share, whatever characters they hold. */
const pairKey = (step: string, position: string) => JSON.stringify([step, position]);

/** Reads operations into sets of pairs, and refuses what would make an hour count two ways. */
export function stepTable(operations: readonly LabourOperation[]): Result<StepTable, LabourFault> {
  const hours = new Map<string, bigint>();
  const pairs = new Map<string, ReadonlySet<string>>();
  for (const operation of operations) {
    if (pairs.has(operation.id)) {
      return fail(
        'operation-id-twice',
        `Operation "${operation.id}" is listed twice: give each operation its own id.`,
      );
    }
    const own = new Set<string>();
    for (const { step, position, hundredths } of operation.steps) {
      const where = `Step "${step}" at "${position}" of operation "${operation.id}"`;
      if (!Number.isSafeInteger(hundredths) || hundredths < 0) {
        return fail('step-hours-invalid', `${where} needs whole hundredths of an hour, zero or more.`);
      }
      const key = pairKey(step, position);
      const known = hours.get(key);
      if (known !== undefined && known !== BigInt(hundredths)) {
        return fail(
          'step-hours-differ',
          `${where} has ${hundredths} hundredths, elsewhere ${known}: give the step one figure, or its own position.`,
        );
      }
      hours.set(key, BigInt(hundredths));
      own.add(key);
    }
    pairs.set(operation.id, own);
  }
  return ok({ hours, pairs });
}
