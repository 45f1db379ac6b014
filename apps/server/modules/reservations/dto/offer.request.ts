import { POSITIONS, type Position } from '#libs/estimate';
import {
  Day,
  Flag,
  Instant,
  ListOf,
  Text,
  TextList,
  Uuid,
  UuidList,
  Whole,
} from '../../../platform/http/fields.js';

const BAY_KINDS = ['lift', 'flat', 'alignment'] as const;

/** One thing to be done: an operation of the catalogue, or what was guessed on the phone. */
export class AskedWorkRequest {
  @Uuid({ optional: true, description: 'An operation of the catalogue; its steps give the hours.' })
  operationId?: string;
  @TextList({
    values: POSITIONS,
    max: 12,
    optional: true,
    description: 'Where on the vehicle; the whole vehicle unless said.',
  })
  positions?: Position[];
  @Text({ max: 120, optional: true, description: 'Instead of an operation: what it is.' }) title?: string;
  @Whole({
    min: 5,
    max: 8000,
    optional: true,
    unit: 'hundredths of an hour',
    description: 'Needed with a title; with an operation it stands instead of the sum of the steps.',
  })
  hundredths?: number;
  @Flag({ optional: true, description: 'With a title: it is done on a lift.' }) needsLift?: boolean;
  @TextList({ values: BAY_KINDS, max: 3, optional: true, description: 'With a title.' })
  bayKinds?: (typeof BAY_KINDS)[number][];
  @TextList({ max: 20, maxLength: 60, optional: true, description: 'With a title.' }) skills?: string[];
  @UuidList({ max: 20, optional: true, description: 'With a title: special tools.' }) toolIds?: string[];
  @Flag({ optional: true, description: 'The work before it in this list must be over first.' })
  isAfterPrevious?: boolean;
}

/** What may come: a vehicle that is known, or what it weighs; and what is to be done. */
export class AskedVisitRequest {
  @Uuid({ optional: true, description: 'A vehicle of this shop.' }) vehicleId?: string;
  @Whole({
    min: 100,
    max: 60_000,
    optional: true,
    unit: 'kg',
    description: 'As it stands. Without a weight nothing goes on a lift.',
  })
  weightKg?: number;
  @Whole({ min: 500, max: 5000, optional: true, unit: 'mm' }) heightMm?: number;
  @ListOf(() => AskedWorkRequest, { max: 12 }) work: AskedWorkRequest[];
}

export class AskOffersRequest extends AskedVisitRequest {
  @ListOf(() => BroughtRequest, {
    max: 8,
    optional: true,
    description: 'When it could be brought; without any, as soon as can be and on the next working mornings.',
  })
  brought?: BroughtRequest[];
  @Flag({ optional: true, description: 'Also tries what would be possible if others moved.' })
  mayMove?: boolean;
}

/** A day on which the vehicle could be brought when the shop opens, or a time. */
export class BroughtRequest {
  @Instant({ optional: true }) at?: string;
  @Day({ optional: true, description: 'When the shop opens on that day.' }) day?: string;
}
