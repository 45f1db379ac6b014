import { contingencyState } from '#libs/approval';
import { offeredContingency, type ContingencyFacts } from '../../estimates/index.js';
import type { ContingencyStandingResponse, ShownContingencyResponse } from '../dto/contingency.response.js';
import type { Approval } from '../queries/approval.query.js';

export const contingencyStanding = (one: ContingencyFacts): ContingencyStandingResponse => ({
  contingencyId: one.id,
  lineId: one.lineId,
  state: contingencyState(offeredContingency(one)),
  capCents: one.capCents,
  chargedCents: one.trigger?.totalCents ?? null,
});

/** The contingencies of a line in the words that were frozen, with what became of them. */
export function shownContingencies(
  line: Approval['document']['lines'][number],
  { offer }: Approval,
  token: string,
): ShownContingencyResponse[] {
  return (line.contingencies ?? []).flatMap((shown): ShownContingencyResponse[] => {
    const facts = offer.contingencies.find(({ id }) => id === shown.id);
    if (facts === undefined) return [];
    const { trigger } = facts;
    return [
      {
        ...contingencyStanding(facts),
        what: shown.what,
        chancePpm: shown.chancePpm,
        hundredths: shown.hundredths,
        items: shown.items.map((item) => ({
          kind: item.kind,
          words: item.words,
          condition: item.condition ?? null,
          quantityHundredths: item.quantityHundredths,
          unitPriceCents: item.unitPriceCents,
          coreCents: item.coreCents ?? 0,
        })),
        trigger: trigger && {
          reason: trigger.reason,
          path: `/o/${token}/photos/${trigger.photoId}`,
          hundredths: trigger.hundredths,
          triggeredAt: new Date(trigger.triggeredAt).toISOString(),
        },
      },
    ];
  });
}
