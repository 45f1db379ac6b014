import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import {
  contingentCents,
  planContingencies,
  type ContingencyAnswer,
  type PlannedContingency,
} from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';
import { offeredContingency, type Offer } from '../../estimates/index.js';
import { ContingencyDecisionRow } from '../data/contingency-decision.entity.js';
import type { Answers, Way } from './record-decisions.js';

/** What is kept with an answer to a contingency beside its cap. */
export interface ContingencyEvidence {
  readonly address?: string;
  readonly userAgent?: string;
  readonly wording?: string;
  readonly numberCalled?: string;
  readonly note?: string;
  /** Agreed caps of what had not happened, of this revision, before these answers and after them. */
  readonly contingentBeforeCents: number;
  readonly contingentAfterCents: number;
}

/** An answer for every contingency at most once, and only for those that were shown. */
export function checkContingencies(offer: Offer, answers: readonly ContingencyAnswer[]): Result<void> {
  const known = new Set(offer.contingencies.map(({ id }) => id));
  const at = (index: number): string => `/contingencies/${index}/contingencyId`;
  const stray = answers.flatMap(({ contingencyId }, index): FieldFault[] =>
    known.has(contingencyId) ? [] : [{ pointer: at(index), detail: 'This contingency was not shown here.' }],
  );
  if (stray.length > 0)
    return fail('contingency-not-in-revision', 'Some of these contingencies are not part of the revision.', {
      fields: stray,
    });
  const twice = answers.flatMap(({ contingencyId }, index): FieldFault[] =>
    answers.findIndex((other) => other.contingencyId === contingencyId) === index
      ? []
      : [{ pointer: at(index), detail: 'This contingency is answered twice.' }],
  );
  return twice.length === 0
    ? ok(undefined)
    : fail('request-invalid', 'Look at the answers.', { fields: twice });
}

/** Whether these answers are recorded already. */
export function contingenciesRepeat(offer: Offer, answers: readonly ContingencyAnswer[]): boolean {
  const standing = new Map(offer.contingencies.map(({ id, answer }) => [id, answer?.agreed]));
  return answers.every(({ contingencyId, agreed }) => standing.get(contingencyId) === agreed);
}

/** What is to be recorded once the lines of `chosen` and those on which work has begun are approved. */
export function planContingencyAnswers(
  offer: Offer,
  answers: readonly ContingencyAnswer[],
  chosen: readonly string[],
): Result<PlannedContingency[]> {
  const planned = planContingencies({
    answers,
    offered: offer.contingencies.map(offeredContingency),
    approved: new Set([...chosen, ...offer.begun]),
  });
  if (planned.ok) return planned;
  const ids = planned.fault.facts?.['contingencyIds'];
  const named = offer.contingencies.filter(({ id }) => Array.isArray(ids) && ids.includes(id));
  const names = named.map(({ what }) => `"${what}"`).join(', ');
  return fail(planned.fault.code, `${names}: ${planned.fault.detail} Nothing was recorded.`, {
    facts: { contingencies: named.map(({ id, what }) => ({ contingencyId: id, what })) },
  });
}

/** Adds the planned answers to what was said before. */
export async function storeContingencies(
  tx: Tx,
  offer: Offer,
  planned: readonly PlannedContingency[],
  { given, way }: { readonly given: Answers; readonly way: Way },
): Promise<void> {
  const before = offer.contingencies.map(offeredContingency);
  const now = new Map(planned.map(({ contingencyId, agreed }) => [contingencyId, agreed]));
  const after = before.map((one) => ({ ...one, agreed: now.get(one.id) ?? one.agreed }));
  const sequences = new Map(offer.contingencies.map(({ id, answer }) => [id, answer?.sequence ?? 0]));
  for (const { contingencyId, lineId, agreed, capCents, because } of planned) {
    const id = tx.newId();
    await tx.em.insert(ContingencyDecisionRow, {
      shopId: tx.shopId,
      id,
      repairOrderId: offer.repairOrderId,
      revisionId: offer.revisionId,
      lineId,
      contingencyId,
      sequence: (sequences.get(contingencyId) ?? 0) + 1,
      agreed,
      capCents,
      because,
      shownSha256: given.shownSha256,
      decidedAt: tx.now,
      channel: way.channel,
      linkId: way.linkId,
      decidedBy: given.decidedBy,
      recordedBy: way.recordedBy,
      evidence: {
        ...way.proof,
        contingentBeforeCents: contingentCents(before),
        contingentAfterCents: contingentCents(after),
      } satisfies ContingencyEvidence,
    });
    await tx.audit(agreed ? 'contingency.agree' : 'contingency.ask-first', 'contingency', contingencyId, {
      lineId,
      capCents,
      because,
      channel: way.channel,
    });
    tx.announce('decision', { contingencyId, lineId, repairOrderId: offer.repairOrderId });
  }
}
