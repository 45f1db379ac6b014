import { HOLD_KINDS, type HoldKind } from '#libs/workflow';
import { Instant, OneOf, Text } from '../../../platform/http/fields.js';

/** One reason why a work order cannot start now. Computed, never typed. */
export class HoldResponse {
  @OneOf(HOLD_KINDS) kind: HoldKind;
  @Text({ max: 1000, description: 'In words.' }) detail: string;
  @Instant({ optional: true, description: 'When it is expected to be gone, where that is known.' })
  until?: string;
}
