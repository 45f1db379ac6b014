import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import { expandLine } from '#libs/estimate';
import { worstFinding, type MayDrive } from '#libs/inspection';
import type { LabourStep } from '#libs/labour';
import type { Tx } from '../../../platform/database/tx.js';
import { catalogueOperations } from '../../catalogue/index.js';
import { pricingFault } from '../data/pricing-fault.js';
import type { AddLineRequest, LineItemRequest, LineOperationRequest } from '../dto/line.request.js';

/** Unknown and foreign alike: there is no such record here, and the pointer says which was meant. */
const unknown = (fields: FieldFault[]) =>
  fail('not-found', 'Some of these records are not in this shop.', { fields });

export interface WordsOfFinding {
  readonly id: string;
  readonly title: string;
  readonly verdict: 'watch' | 'repair';
  readonly mayDrive: MayDrive;
  readonly explanation: string | null;
  readonly consequence: string | null;
}

/** The findings that a line answers: of this vehicle and not withdrawn. The worst speaks for the line. */
export async function findingsFor(
  tx: Tx,
  vehicleId: string,
  findingIds: readonly string[],
): Promise<Result<{ ids: string[]; worst: WordsOfFinding | undefined }>> {
  const ids = [...new Set(findingIds.map((id) => id.toLowerCase()))];
  const rows = await tx.rows<WordsOfFinding>(
    `select id, title, verdict, may_drive as "mayDrive", explanation, consequence from findings
      where shop_id = $1 and vehicle_id = $2 and id = any($3::uuid[]) and withdrawn_at is null order by found_at, id for share`,
    [tx.shopId, vehicleId, ids],
  );
  const known = new Set(rows.map(({ id }) => id));
  const fields = ids.flatMap((id, at) =>
    known.has(id)
      ? []
      : [{ pointer: `/findingIds/${at}`, detail: 'This vehicle has no such finding, or it was withdrawn.' }],
  );
  return fields.length > 0 ? unknown(fields) : ok({ ids, worst: worstFinding(rows) });
}

export async function rateFor(
  tx: Tx,
  rateId: string | undefined,
): Promise<Result<{ rateId: string; centsPerHour: number }>> {
  const row = await tx.one<{ rateId: string; centsPerHour: number }>(
    `select id as "rateId", cents_per_hour as "centsPerHour" from labour_rates
      where shop_id = $1 and case when $2::uuid is null then is_default else id = $2 end`,
    [tx.shopId, rateId ?? null],
  );
  if (row) return ok(row);
  return rateId === undefined
    ? fail('request-invalid', 'The shop has no default labour rate. Name one.', {
        fields: [{ pointer: '/rateId', detail: 'Name a labour rate.' }],
      })
    : unknown([{ pointer: '/rateId', detail: 'This shop has no such labour rate.' }]);
}

/** The steps of a line, with the hours that the catalogue gives them at this moment. */
export async function stepsFor(
  tx: Tx,
  operations: readonly LineOperationRequest[],
): Promise<Result<LabourStep[]>> {
  const ids = operations.map(({ operationId }) => operationId.toLowerCase());
  const twice = ids.findIndex((id, at) => ids.indexOf(id) !== at);
  if (twice >= 0)
    return fail('request-invalid', 'An operation is listed twice. List it once with all its positions.', {
      fields: [{ pointer: `/operations/${twice}`, detail: 'Listed before; add its positions there.' }],
    });
  const known = await catalogueOperations(tx, ids);
  if (!known.ok) {
    const missing = (known.fault.facts?.['unknown'] ?? []) as string[];
    return unknown(
      ids.flatMap((id, at) =>
        missing.includes(id)
          ? [{ pointer: `/operations/${at}/operationId`, detail: 'This shop has no such operation.' }]
          : [],
      ),
    );
  }
  const fields = ids.flatMap((id, at) =>
    known.value.get(id)?.isActive === false
      ? [{ pointer: `/operations/${at}/operationId`, detail: 'This operation is no longer offered.' }]
      : [],
  );
  if (fields.length > 0) return fail('request-invalid', 'Some operations are no longer offered.', { fields });
  const ordered = operations.flatMap(({ operationId, positions }) => {
    const operation = known.value.get(operationId.toLowerCase());
    return operation ? [{ operation: { ...operation, id: operation.name }, positions }] : [];
  });
  const steps = expandLine(ordered);
  if (steps.ok) return steps;
  return steps.fault.code === 'step-hours-differ'
    ? fail('step-hours-differ', steps.fault.detail)
    : pricingFault(steps.fault);
}

/** A part says what condition it is in and where it comes from: the owner is told, and many laws ask for it. */
function itemFaults(items: readonly LineItemRequest[]): FieldFault[] {
  return items.flatMap((item, at) =>
    (['condition', 'source'] as const).flatMap((field) =>
      item.kind === 'part' && item[field] == null
        ? [{ pointer: `/items/${at}/${field}`, detail: `Say the ${field} of the part.` }]
        : [],
    ),
  );
}

/** What the parts of a request mean together, where each is right by itself. */
export function checkContent(line: AddLineRequest): Result<void> {
  const fields = itemFaults(line.items ?? []);
  const entered = line.enteredHundredths ?? null;
  if (entered !== null && line.enteredSource == null)
    fields.push({
      pointer: '/enteredSource',
      detail: 'Say where the hours come from, such as "shop\'s own time".',
    });
  if (entered === null && (line.operations ?? []).length === 0 && (line.items ?? []).length === 0)
    fields.push({ pointer: '/operations', detail: 'Give an operation, entered hours or an item.' });
  if (line.title === undefined && (line.findingIds ?? []).length === 0)
    fields.push({ pointer: '/title', detail: 'Give a title, or a finding that has one.' });
  if (fields.length === 0) return ok(undefined);
  return fail('request-invalid', `Look at ${fields.map(({ pointer }) => pointer).join(', ')}.`, { fields });
}
