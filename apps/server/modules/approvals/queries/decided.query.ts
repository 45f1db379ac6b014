import { authorisedCents } from '#libs/approval';
import type { Tx } from '../../../platform/database/tx.js';
import { chargedCents, contingenciesOf, openCapsCents, standingDecisions } from '../../estimates/index.js';
import { contingencyStanding } from '../data/contingency.mapping.js';
import type { DecisionsResponse } from '../dto/approval-link.response.js';

/** What counts now for the lines of a revision. */
export async function decidedOf(
  tx: Tx,
  repairOrderId: string,
  revisionId: string,
  repeated: boolean,
): Promise<DecisionsResponse> {
  const all = [...(await standingDecisions(tx, repairOrderId)).values()];
  const own = all.filter((decision) => decision.revisionId === revisionId);
  const contingencies = await contingenciesOf(tx, { repairOrderId });
  const here = contingencies.filter((one) => one.revisionId === revisionId);
  return {
    repeated,
    decisions: own.map(({ response }) => response).sort((a, b) => (a.id < b.id ? -1 : 1)),
    contingencies: here.map(contingencyStanding),
    contingentCents: openCapsCents(contingencies),
    approvedCents: authorisedCents(own) + chargedCents(here),
    authorisedCents: authorisedCents(all) + chargedCents(contingencies),
  };
}
