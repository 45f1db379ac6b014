import type { FoundSet } from '#libs/choice';
import type { ChoicesResponse, SetResponse } from '../dto/choices.js';
import type { Solved } from '../solving/sets-solver.js';
import { agreedLines, type OfferToChoose } from '../queries/offer-to-choose.query.js';

/** Both are whole cents below 2^31, so that the product is exact. */
function ratioOf(priceCents: number, valueCents: number | null): number | null {
  return valueCents === null || valueCents === 0 ? null : Math.round((priceCents * 1_000_000) / valueCents);
}

function setResponse({ lines, vehicleValueCents }: OfferToChoose, set: FoundSet): SetResponse {
  return {
    kind: set.kind,
    chosen: [...set.chosen],
    leftOut: [...set.leftOut],
    priceCents: set.priceCents,
    totalCents: set.totalCents,
    ratioOfValuePpm: ratioOf(set.priceCents, vehicleValueCents),
    benefit: set.benefit,
    proven: set.proven,
    upperBound: set.upperBound,
    lines: lines.flatMap(({ id, title, benefit, why, mustInclude }) => {
      const at = set.chosen.indexOf(id);
      return at < 0
        ? []
        : [{ lineId: id, title, benefit, why, mustInclude, totalCents: set.shares[at] ?? 0 }];
    }),
  };
}

export function choicesResponse(chosen: OfferToChoose, found: Solved): ChoicesResponse {
  const { offer, currency, vehicleValueCents } = chosen;
  const { kind, proven, rungs } = found.ladder;
  return {
    repairOrderId: offer.repairOrderId,
    revisionId: offer.revisionId,
    currency,
    vehicleValueCents,
    given: agreedLines(offer),
    givenCents: found.agreedCents,
    leastSafeCents: found.leastSafeCents,
    allCents: found.ladder.allCents,
    sets: found.sets.map((set) => setResponse(chosen, set)),
    ladder: {
      kind,
      proven,
      rungs: rungs.map((rung) => ({
        priceCents: rung.priceCents,
        benefit: rung.benefit,
        chosen: [...rung.chosen],
        added: [...rung.added],
        dropped: [...rung.dropped],
        ratioOfValuePpm: ratioOf(rung.priceCents, vehicleValueCents),
      })),
    },
  };
}
