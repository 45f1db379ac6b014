import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { Answer } from '../api/transport.js';
import type { Absence, BayClosure, PlannedWork, ToolClosure } from './types.js';

/** One entry of the ledger that can be changed, whatever it is of. */
export type Entry =
  | { readonly kind: 'absence'; readonly name: string; readonly of: Absence }
  | { readonly kind: 'bay'; readonly name: string; readonly of: BayClosure }
  | { readonly kind: 'tool'; readonly name: string; readonly of: ToolClosure };

export interface Change {
  /** Null: nobody knows; not for an absence. */
  readonly endsAt?: string | null;
  readonly isBackInService?: true;
}

type Done = Promise<{ readonly ok: true } | { readonly ok: false; readonly fault: ApiFault }>;

export function change({ kind, of }: Entry, wanted: Change): Done {
  const headers = ifMatch(of.version);
  if (kind === 'absence') {
    const body = typeof wanted.endsAt === 'string' ? { endsAt: wanted.endsAt } : {};
    const path = { id: of.technicianId, absenceId: of.id };
    return call('patch', '/api/v1/technicians/{id}/absences/{absenceId}', { path, body, headers });
  }
  if (kind === 'bay') {
    const path = { id: of.bayId, closureId: of.id };
    return call('patch', '/api/v1/bays/{id}/closures/{closureId}', { path, body: wanted, headers });
  }
  const path = { id: of.toolId, closureId: of.id };
  return call('patch', '/api/v1/special-tools/{id}/closures/{closureId}', { path, body: wanted, headers });
}

/** It never was: an absence is withdrawn, what has not begun is called off. */
export function undo(entry: Entry): Done {
  if (entry.kind !== 'absence') return change(entry, { isBackInService: true });
  const path = { id: entry.of.technicianId, absenceId: entry.of.id };
  return call('delete', '/api/v1/technicians/{id}/absences/{absenceId}', {
    path,
    headers: ifMatch(entry.of.version),
  });
}

export interface AbsenceWish {
  readonly technicianId: string;
  readonly startsAt: string;
  readonly endsAt: string;
  readonly reason: string | null;
}

export function recordAbsence({
  technicianId: id,
  ...body
}: AbsenceWish): Promise<Answer<'/api/v1/technicians/{id}/absences', 'post'>> {
  return call('post', '/api/v1/technicians/{id}/absences', { path: { id }, body });
}

export interface ClosureWish {
  /** A bay, or a unit of a tool. */
  readonly what: { readonly bayId: string } | { readonly toolId: string; readonly unit: number };
  readonly startsAt?: string;
  readonly endsAt: string | null;
  readonly reason: string;
}

export function takeOut({
  what,
  ...body
}: ClosureWish): Promise<
  Answer<'/api/v1/bays/{id}/closures', 'post'> | Answer<'/api/v1/special-tools/{id}/closures', 'post'>
> {
  if ('bayId' in what) return call('post', '/api/v1/bays/{id}/closures', { path: { id: what.bayId }, body });
  const { toolId: id, unit } = what;
  return call('post', '/api/v1/special-tools/{id}/closures', { path: { id }, body: { ...body, unit } });
}

/** What the page says about work that stands in the way. */
export function plannedWords(planned: readonly PlannedWork[]): string {
  if (planned.length === 0) return 'Nothing is planned in that time.';
  const numbers = planned.map(({ workOrderNumber }) => String(workOrderNumber)).join(', ');
  return `Work orders planned in that time: ${numbers}.`;
}
