import type { Answer } from '#libs/approval';
import type { FoundSet, SetKind } from '#libs/choice';
import { cents } from '#libs/kernel';
import { decimalFromCents, formatDecimal } from '#libs/money';
import type { LineToChoose, Solved } from '../../estimates/index.js';
import { openLines, recordedAnswer, type OwnerModel } from './model.js';

/** What the owner asked about a sum, and what there is to say. */
export interface Spend {
  /** As typed; null while nothing was asked. */
  readonly typed: string | null;
  /** Null also where what was typed is not a sum. */
  readonly budgetCents: number | null;
  /** Null when it could not be worked out just now. */
  readonly found: Solved | null;
  readonly lines: readonly LineToChoose[];
  /** The set that the owner put into the answers. */
  readonly taken: SetKind | null;
}

/** A sum in an address: "547.65". */
export const plainSum = (amount: number): string => formatDecimal(decimalFromCents(cents(amount)));

export function takenSet({ found, taken }: Spend): FoundSet | undefined {
  return taken === null ? undefined : found?.sets.find(({ kind }) => kind === taken);
}

/** A set as answers, by place: yes to what is in it; what waits keeps its no or becomes not now. */
export function answersOf(model: OwnerModel, set: FoundSet): Map<number, Answer> {
  return new Map(
    openLines(model).map(({ line, at }) => {
      const recorded = recordedAnswer(model, line);
      if (set.chosen.includes(line.id)) return [at, 'approved'] as const;
      return [at, recorded ?? 'deferred'] as const;
    }),
  );
}
