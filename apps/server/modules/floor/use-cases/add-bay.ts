import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { BayRow } from '../data/bay.entity.js';
import { bayResponse } from '../data/bay.mapping.js';
import type { AddBayRequest } from '../dto/bay.request.js';
import type { BayResponse } from '../dto/bay.response.js';

/** A place for a vehicle. A lift is nothing without its rated capacity: the planner relies on it. */
export async function addBay(tx: Tx, request: AddBayRequest): Promise<Result<BayResponse>> {
  const isFlat = request.kind === 'flat';
  if (isFlat !== (request.liftKind == null) || isFlat !== (request.capacityKg == null)) {
    return fail(
      'request-invalid',
      'A lift or alignment bay has a kind of lift and a rated capacity; a flat bay has neither.',
      {
        fields: [
          {
            pointer: '/liftKind',
            detail: isFlat ? 'Leave it out for a flat bay.' : 'Say which kind of lift it is.',
          },
          {
            pointer: '/capacityKg',
            detail: isFlat ? 'Leave it out for a flat bay.' : 'Give the rated capacity in kg.',
          },
        ],
      },
    );
  }
  const row = tx.em.create(BayRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    number: request.number,
    name: request.name,
    kind: request.kind,
    liftKind: request.liftKind ?? null,
    capacityKg: request.capacityKg ?? null,
    maxHeightMm: request.maxHeightMm ?? null,
    liftInspectedOn: request.liftInspectedOn ?? null,
    outOfServiceReason: null,
    isActive: true,
    version: 1,
  });
  await tx.em.insert(BayRow, row);
  await tx.audit('bay.add', 'bay', row.id, { number: row.number });
  tx.announce('bay', { bayId: row.id });
  return ok(bayResponse(row));
}
