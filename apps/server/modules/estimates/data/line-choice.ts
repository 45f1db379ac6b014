import { benefitOf, type BenefitWeights, type Consequence } from '#libs/choice';
import type { FrozenLine, FrozenRevision, LineChoice } from '#libs/estimate';
import { worstFinding, type MayDrive, type Verdict } from '#libs/inspection';
import type { LineFacts } from '../queries/lines.query.js';
import { MAY_DRIVE_WORDS } from '../shown-words.js';

/** What waiting puts at stake: the line's own word, or that of its worst finding. */
export function stakeOf(line: LineFacts): Consequence {
  return line.stake ?? worstFinding(line.findings)?.stake ?? 'none';
}

/** What a line of a draft is worth by the shop's weights of today, and what it comes with. */
export function choiceOfLine(line: LineFacts, weights: BenefitWeights): LineChoice {
  const worst = worstFinding(line.findings);
  const { verdict, mayDrive } = worst ?? { verdict: null, mayDrive: null };
  return {
    ...benefitOf({ verdict, mayDrive, consequence: stakeOf(line) }, weights),
    mustInclude: mayDrive === 'no',
    requires: [...line.requires],
    excludes: [...line.excludes],
  };
}

const AS_FOUND: Readonly<Record<string, { verdict: Verdict; mayDrive: MayDrive }>> = {
  Unsafe: { verdict: 'repair', mayDrive: 'no' },
  Repair: { verdict: 'repair', mayDrive: 'yes' },
  Watch: { verdict: 'watch', mayDrive: 'yes' },
};

/**
 * What a line that was sent is worth: as it was frozen. A document from before benefits were kept says it by its verdict
 * and the first weights, which never change, so that the owner's page does not either.
 */
export function choiceOfFrozen(line: FrozenLine): LineChoice {
  if (line.choice !== undefined) return line.choice;
  const found = AS_FOUND[line.verdict ?? ''] ?? { verdict: null, mayDrive: null };
  const toTheShop = line.mayDrive === MAY_DRIVE_WORDS['to-the-shop-only'];
  const benefit = benefitOf({ ...found, ...(toTheShop ? { mayDrive: 'to-the-shop-only' as const } : {}) });
  return { ...benefit, mustInclude: line.verdict === 'Unsafe', requires: [], excludes: [] };
}

export function choiceInDocument(document: FrozenRevision | null, lineId: string): LineChoice | undefined {
  const line = document?.lines.find(({ id }) => id === lineId);
  return line === undefined ? undefined : choiceOfFrozen(line);
}
