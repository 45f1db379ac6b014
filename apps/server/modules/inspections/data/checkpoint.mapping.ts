import { UNIT_NAMES, type Limit, type Unit } from '#libs/inspection';
import type { CheckpointResponse, LimitResponse } from '../dto/template.response.js';

/** A checkpoint as queries select it. */
export interface StoredCheckpoint {
  readonly id: string;
  readonly component: string;
  readonly position: string;
  readonly readingName: string | null;
  readonly readingUnit: string | null;
  readonly limitComparator: string | null;
  readonly limitValue: string | null;
  readonly limitSource: string | null;
}

export const CHECKPOINT_COLUMNS = `c.id, c.component, c.position, c.reading_name as "readingName",
  c.reading_unit as "readingUnit", c.limit_comparator as "limitComparator", c.limit_value as "limitValue",
  c.limit_source as "limitSource"`;

const isUnit = (text: string): text is Unit => (UNIT_NAMES as readonly string[]).includes(text);

export function unitOf({ readingUnit }: StoredCheckpoint): Unit | null {
  return readingUnit !== null && isUnit(readingUnit) ? readingUnit : null;
}

/** The limit of a checkpoint in the unit of its reading, or null where it has none. */
export function limitOfCheckpoint(checkpoint: StoredCheckpoint): Limit | null {
  const unit = unitOf(checkpoint);
  const { limitComparator, limitValue, limitSource } = checkpoint;
  if (unit === null || limitValue === null || limitSource === null) return null;
  return {
    comparator: limitComparator === 'max' ? 'max' : 'min',
    value: limitValue,
    unit,
    source: limitSource,
  };
}

/** "not less than 1.6 mm" */
export function limitText({ comparator, value, unit }: Limit): string {
  return `not ${comparator === 'min' ? 'less' : 'more'} than ${value} ${unit}`;
}

export function checkpointResponse(checkpoint: StoredCheckpoint): CheckpointResponse {
  return {
    id: checkpoint.id,
    component: checkpoint.component,
    position: checkpoint.position,
    readingName: checkpoint.readingName,
    readingUnit: checkpoint.readingUnit,
    limit: limitResponse(limitOfCheckpoint(checkpoint)),
  };
}

function limitResponse(limit: Limit | null): LimitResponse | null {
  if (!limit) return null;
  return { comparator: limit.comparator, value: limit.value, text: limitText(limit), source: limit.source };
}

/** "Brake hose, front left"; what belongs to the vehicle as a whole needs no place. */
export function titleOf({ component, position }: Pick<StoredCheckpoint, 'component' | 'position'>): string {
  return position === 'vehicle' ? component : `${component}, ${position.replace('-', ' ')}`;
}
