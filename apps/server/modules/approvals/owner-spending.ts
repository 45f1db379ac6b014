import { Injectable } from '@nestjs/common';
import type { SetKind } from '#libs/choice';
import { agreedLines, linesToChoose, setsQuestion, SetsSolver } from '../estimates/index.js';
import type { OwnerModel } from './page/model.js';
import { readSum } from './page/read-sum.js';
import type { Spend } from './page/spend.js';

/** One thing to decide on needs no search. */
const FEWEST = 2;

const last = (value: unknown): string | null => {
  const text: unknown = Array.isArray(value) ? value.at(-1) : value;
  return typeof text === 'string' ? text.replaceAll('\0', '').trim() : null;
};

function kindOf(value: unknown): SetKind | null {
  const text = last(value);
  return text === 'drivable' || text === 'not-to-be-driven' ? text : null;
}

/** What the owner's page says about a sum: the best sets for it and the ladder. Asking changes nothing. */
@Injectable()
export class OwnerSpending {
  constructor(private readonly solver: SetsSolver) {}

  /** `query` is that of the address: `spend` as typed, `take` for the set to put into the answers. Null: nothing to choose. */
  async spendOf({ approval }: OwnerModel, query: Readonly<Record<string, unknown>>): Promise<Spend | null> {
    const { offer } = approval;
    const lines = linesToChoose(offer);
    if (lines.length - agreedLines(offer).length < FEWEST) return null;
    const typed = last(query['spend']);
    const budgetCents = typed === null ? null : readSum(typed);
    const found = await this.solver.solve(setsQuestion(offer, lines, { budgetCents, notToBeDriven: false }));
    return {
      typed,
      budgetCents,
      lines,
      found: found.ok ? found.value : null,
      taken: budgetCents === null ? null : kindOf(query['take']),
    };
  }
}
