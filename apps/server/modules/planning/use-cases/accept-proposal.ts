import { fail, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { freeReservedPlaces } from '../../scheduling/index.js';
import { enqueueImprove } from '../data/enqueue-plan.js';
import { composed, rulesBrokenBy } from '../data/found-plan.js';
import { lockFloor, workOrdersWithPlaces } from '../data/lock-floor.js';
import { lockPlan } from '../data/lock-plan.js';
import { enqueueLook, nextLook } from '../data/next-look.js';
import { writesFor } from '../data/place-writes.js';
import { withWorkNearlyOver } from '../data/nearly-over.js';
import { decideRun, openProposal } from '../data/proposal.js';
import { writePlaces } from '../data/write-places.js';
import type { PlanRunResponse } from '../dto/plan-run.response.js';
import { loadShopPlan } from '../loading/load-shop-plan.js';
import { withNames } from '../loading/names.js';
import type { PlanContributor } from '../loading/shop-plan.js';
import { planRun } from '../queries/plan-runs.query.js';

export interface AcceptTools {
  readonly contributors: readonly PlanContributor[];
  /** How much faster than the wall's the shop's clock runs. */
  readonly rate: number;
}

/** All of the proposal is written, held against the floor as it is now, or nothing. */
export async function acceptProposal(
  tx: Tx,
  id: string,
  { contributors, rate }: AcceptTools,
): Promise<Result<PlanRunResponse>> {
  await lockPlan(tx);
  const open = await openProposal(tx, id);
  if (!open.ok) return open;
  const found = open.value.proposal;
  const named = [...found.places.map(({ operation }) => operation).filter(isUuid), ...found.takenOut];
  await lockFloor(tx, await workOrdersWithPlaces(tx, named));
  await freeReservedPlaces(tx, 'any');
  const shop = withWorkNearlyOver(await loadShopPlan(tx, contributors), found);
  const [broken] = rulesBrokenBy(shop, found);
  if (broken !== undefined) {
    const about = broken.operations.map((operation) => shop.names.get(operation) ?? 'Other work').join(', ');
    return fail('plan-outdated', `${about}: ${withNames(broken.detail, shop.names)}`, {
      facts: { rule: broken.rule },
    });
  }
  const stored = composed(shop, found);
  const givenUp = found.takenOut.flatMap((operation) => shop.assignmentOf.get(operation) ?? []);
  await writePlaces(tx, id, writesFor(shop, stored), givenUp);
  await decideRun(tx, id, 'accepted');
  await tx.audit('plan.accept', 'plan-run', id);
  tx.announce('plan', { planRunId: id });
  const look = await nextLook(tx, shop, stored, []);
  if (look !== null) enqueueLook(tx, look, rate);
  enqueueImprove(tx);
  return planRun(tx, id);
}

/** What only stands for a car in a bay has another kind of id. */
const isUuid = (id: string): boolean => /^[0-9a-f-]{36}$/.test(id);
