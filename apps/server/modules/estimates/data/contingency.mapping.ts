import { bookHundredths, cents, ok, ppm, type Cents, type Result } from '#libs/kernel';
import { contingencyState, contingentCents, type OfferedContingency } from '#libs/approval';
import {
  addToAgreed,
  contingencyCharge,
  type AgreedLine,
  type AlreadyAgreed,
  type ChoicePrice,
  type EstimateLine,
  type FrozenContingency,
  type PricingPolicy,
  type RevisionLine,
} from '#libs/estimate';
import type { ContingencyResponse, ContingencyTriggerResponse } from '../dto/contingency.response.js';
import type { ContingencyFacts, TriggerFacts } from '../queries/contingencies.query.js';
import { conditionWords } from '../shown-words.js';
import { pricingFault } from './pricing-fault.js';

/** As the owner is shown it. */
export function frozenContingency(one: ContingencyFacts): FrozenContingency {
  return {
    id: one.id,
    what: one.what,
    chancePpm: ppm(one.chancePpm),
    hundredths: bookHundredths(one.hundredths),
    capCents: cents(one.capCents),
    items: one.items.map((item) => ({
      id: item.id,
      kind: item.kind,
      words: item.name,
      condition: conditionWords(item.condition, item.source),
      quantityHundredths: item.quantityHundredths,
      unitPriceCents: cents(item.unitPriceCents),
      coreCents: cents(item.coreCents),
    })),
  };
}

/** The lines with their contingencies on them; a line that has none stays as it is. */
export function withContingencies(
  lines: readonly RevisionLine[],
  contingencies: readonly ContingencyFacts[],
): RevisionLine[] {
  return lines.map((line) => {
    const own = contingencies.filter(({ lineId }) => lineId === line.id);
    return own.length === 0 ? line : { ...line, contingencies: own.map(frozenContingency) };
  });
}

export const offeredContingency = (one: ContingencyFacts): OfferedContingency => ({
  id: one.id,
  lineId: one.lineId,
  capCents: cents(one.capCents),
  agreed: one.answer?.agreed ?? null,
  triggered: one.trigger !== null,
});

/** What has happened is agreed to and paid for like a line, and shares no step with anything. */
export function agreedCharges(contingencies: readonly ContingencyFacts[]): AgreedLine[] {
  return contingencies.flatMap(({ trigger }) =>
    trigger === null
      ? []
      : [
          {
            steps: [],
            labourCents: cents(trigger.labourCents),
            suppliesCents: cents(trigger.suppliesCents),
            suppliesBaseCents: cents(trigger.suppliesBaseCents),
          },
        ],
  );
}

export const chargedCents = (contingencies: readonly ContingencyFacts[]): Cents =>
  cents(contingencies.reduce((sum, { trigger }) => sum + (trigger?.totalCents ?? 0), 0));

export const openCapsCents = (contingencies: readonly ContingencyFacts[]): Cents =>
  contingentCents(contingencies.map(offeredContingency));

export const triggerResponse = (trigger: TriggerFacts): ContingencyTriggerResponse => ({
  reason: trigger.reason,
  photoId: trigger.photoId,
  hundredths: trigger.hundredths,
  labourCents: trigger.labourCents,
  partsCents: trigger.partsCents,
  coreCents: trigger.coreCents,
  suppliesCents: trigger.suppliesCents,
  taxCents: trigger.taxCents,
  totalCents: trigger.totalCents,
  uncappedCents: trigger.uncappedCents,
  triggeredAt: new Date(trigger.triggeredAt).toISOString(),
  triggeredBy: trigger.triggeredBy,
});

interface PricedRevision {
  readonly version: number;
  readonly contingencies: readonly ContingencyFacts[];
  readonly lines: readonly EstimateLine[];
  /** Of all lines as one choice. */
  readonly price: ChoicePrice;
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
  readonly showCost: boolean;
}

/** The contingencies of a revision by line, each with what it would come to beside all lines. */
export function contingencyResponses(
  revision: PricedRevision,
): Result<ReadonlyMap<string, ContingencyResponse[]>> {
  const { contingencies, lines, price, policy } = revision;
  const byLine = new Map<string, ContingencyResponse[]>();
  const given = addToAgreed(revision.given, lines, price);
  for (const one of contingencies) {
    const line = lines.find(({ id }) => id === one.lineId);
    if (line === undefined) continue;
    const { id, hundredths, items, capCents } = frozenContingency(one);
    const priced = contingencyCharge({ id, line, hundredths, items, capCents, given, policy });
    if (!priced.ok) return pricingFault(priced.fault);
    const response = contingencyResponse(one, revision, priced.value.uncappedCents);
    byLine.set(one.lineId, [...(byLine.get(one.lineId) ?? []), response]);
  }
  return ok(byLine);
}

function contingencyResponse(
  one: ContingencyFacts,
  { version, showCost }: PricedRevision,
  priceCents: Cents,
): ContingencyResponse {
  return {
    id: one.id,
    lineId: one.lineId,
    revisionId: one.revisionId,
    version,
    sequence: one.sequence,
    what: one.what,
    chancePpm: one.chancePpm,
    hundredths: one.hundredths,
    items: one.items.map((item) => ({ ...item, unitCostCents: showCost ? item.unitCostCents : null })),
    capCents: one.capCents,
    priceCents,
    state: contingencyState(offeredContingency(one)),
    chargedCents: one.trigger?.totalCents ?? null,
    trigger: one.trigger === null ? null : triggerResponse(one.trigger),
  };
}
