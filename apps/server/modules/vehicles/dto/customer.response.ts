import { Email, Instant, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class CustomerResponse {
  @Uuid() id: string;
  @Text() displayName: string;
  @Text({ nullable: true, description: 'As typed.' }) phone: string | null;
  @Text({ nullable: true, description: 'E.164, where what was typed can be a number.' })
  phoneE164: string | null;
  @Email({ nullable: true }) email: string | null;
  @Text({ nullable: true, max: 400 }) address: string | null;
  @Text({ nullable: true, max: 2000 }) note: string | null;
  @Instant() createdAt: string;
  @Whole({ min: 1 }) version: number;
}
