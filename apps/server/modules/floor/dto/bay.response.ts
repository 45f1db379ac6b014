import { Flag, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class BayResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @Text() name: string;
  @Text() kind: string;
  @Text({ nullable: true }) liftKind: string | null;
  @Whole({ nullable: true }) capacityKg: number | null;
  @Whole({ nullable: true }) maxHeightMm: number | null;
  @Text({ nullable: true }) liftInspectedOn: string | null;
  @Text({ nullable: true }) outOfServiceReason: string | null;
  @Flag() isActive: boolean;
  @Whole({ min: 1 }) version: number;
}
