import { expandPositions } from '#libs/estimate';
import { bookHundredths, fail, ok, type BookHundredths, type FieldFault, type Result } from '#libs/kernel';
import { shares, type LabourOperation } from '#libs/labour';
import type { Tx } from '../../../platform/database/tx.js';
import { catalogueOperations, type KnownOperation } from '../../catalogue/index.js';
import { vehicleOf } from '../../vehicles/index.js';
import type { AskedVisitRequest, AskedWorkRequest } from '../dto/offer.request.js';
import { toolsOf, type KnownTool } from '../queries/tools.query.js';

/** One piece of work with everything that decides where it can be done. */
export interface AskedWork {
  readonly operationId: string | null;
  readonly positions: readonly string[];
  readonly title: string;
  readonly hundredths: BookHundredths;
  readonly needsLift: boolean;
  readonly bayKinds: readonly string[];
  readonly skills: readonly string[];
  readonly tools: readonly KnownTool[];
  readonly isAfterPrevious: boolean;
}

/** A car that may come, and what is to be done to it. */
export interface AskedVisit {
  readonly vehicleId: string | null;
  readonly customerId: string | null;
  readonly weightKg: number | null;
  readonly heightMm: number | null;
  readonly work: readonly AskedWork[];
}

/** Looks the question up in the shop's own records; what cannot be meant is named by its field. */
export async function visitAsked(tx: Tx, request: AskedVisitRequest): Promise<Result<AskedVisit>> {
  const shape = shapeFaults(request.work);
  if (shape.length > 0)
    return fail('request-invalid', `Look at ${shape.map((one) => one.pointer).join(', ')}.`, {
      fields: shape,
    });
  const vehicle = request.vehicleId === undefined ? null : await vehicleOf(tx, request.vehicleId);
  if (vehicle !== null && !vehicle.ok) return vehicle;
  const known = await catalogueOperations(
    tx,
    request.work.flatMap(({ operationId }) => operationId ?? []),
  );
  if (!known.ok) return known;
  const hours = hoursOf(request.work, known.value);
  if (!hours.ok) return hours;
  const tools = await toolsOf(tx, [
    ...request.work.flatMap(({ toolIds }) => toolIds ?? []),
    ...[...known.value.values()].flatMap(({ toolIds }) => toolIds),
  ]);
  if (!tools.ok) return tools;
  return ok({
    vehicleId: vehicle?.value.id ?? null,
    customerId: vehicle?.value.customer.id ?? null,
    weightKg: request.weightKg ?? vehicle?.value.weightKg ?? null,
    heightMm: request.heightMm ?? vehicle?.value.heightMm ?? null,
    work: request.work.map((asked, at) =>
      workOf(asked, hours.value[at] ?? bookHundredths(0), known.value, tools.value),
    ),
  });
}

/** An operation, or a title with hours; a title knows nothing of the catalogue, an operation all of it. */
function shapeFaults(work: readonly AskedWorkRequest[]): FieldFault[] {
  const fields: FieldFault[] = [];
  if (work.length === 0) fields.push({ pointer: '/work', detail: 'Say what is to be done.' });
  work.forEach(({ operationId, title, hundredths }, at) => {
    const say = (field: string, detail: string): void =>
      void fields.push({ pointer: `/work/${at}/${field}`, detail });
    if (operationId === undefined && title === undefined)
      say('title', 'Choose an operation, or say what it is and about how long it takes.');
    if (operationId !== undefined && title !== undefined)
      say('title', 'An operation has its own name; leave this out.');
    if (operationId === undefined && title !== undefined && hundredths === undefined)
      say('hundredths', 'Say about how long it takes, in hundredths of an hour.');
  });
  return fields;
}

/**
 * The book hours of each piece. Operations that share steps on this visit carry their shares, so that the hours add up
 * to those of the whole; hours that were said stand as they are.
 */
function hoursOf(
  work: readonly AskedWorkRequest[],
  known: ReadonlyMap<string, KnownOperation>,
): Result<BookHundredths[]> {
  const fields: FieldFault[] = [];
  const labour: LabourOperation[] = [];
  work.forEach(({ operationId, positions, hundredths }, at) => {
    const operation = known.get(operationId?.toLowerCase() ?? '');
    if (operation === undefined || hundredths !== undefined) return;
    const expanded = expandPositions(operation, positions ?? ['vehicle']);
    if (expanded.ok) labour.push({ id: String(at), steps: expanded.value });
    else
      fields.push({
        pointer: `/work/${at}/positions`,
        detail: `Say where "${operation.name}" is done: it has a step per corner or axle.`,
      });
  });
  if (fields.length > 0)
    return fail('position-not-possible', fields.map(({ detail }) => detail).join(' '), { fields });
  const shared = shares(labour);
  if (!shared.ok) return shared;
  const hours = work.map(({ hundredths }, at) =>
    hundredths === undefined
      ? (shared.value.get(String(at)) ?? bookHundredths(0))
      : bookHundredths(hundredths),
  );
  const empty = hours.findIndex((one) => one === 0);
  if (empty < 0) return ok(hours);
  const detail = 'The catalogue has no hours for this. Say about how long it takes.';
  return fail('request-invalid', detail, { fields: [{ pointer: `/work/${empty}/hundredths`, detail }] });
}

function workOf(
  asked: AskedWorkRequest,
  hundredths: BookHundredths,
  known: ReadonlyMap<string, KnownOperation>,
  tools: ReadonlyMap<string, KnownTool>,
): AskedWork {
  const operation = known.get(asked.operationId?.toLowerCase() ?? '');
  const toolIds = operation?.toolIds ?? asked.toolIds ?? [];
  return {
    operationId: operation?.id ?? null,
    positions: operation === undefined ? [] : (asked.positions ?? ['vehicle']),
    title: operation?.name ?? asked.title ?? '',
    hundredths,
    needsLift: operation?.needsLift ?? asked.needsLift ?? false,
    bayKinds: operation?.bayKinds ?? asked.bayKinds ?? [],
    skills: operation?.skills ?? asked.skills ?? [],
    tools: [...new Set(toolIds.map((id) => id.toLowerCase()))].flatMap((id) => tools.get(id) ?? []),
    isAfterPrevious: asked.isAfterPrevious ?? false,
  };
}
