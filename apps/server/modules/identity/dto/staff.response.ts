import { ROLES } from '#libs/access';
import { Email, Flag, Instant, ListOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';

export class StaffMemberResponse {
  @Uuid() id: string;
  @Text() displayName: string;
  @Email({ nullable: true }) email: string | null;
  @TextList({ values: ROLES }) roles: string[];
  @Flag() isActive: boolean;
  @Flag() hasPassword: boolean;
  @Flag() hasPin: boolean;
  @Instant({ nullable: true, description: 'Password sign-in is locked until then.' }) lockedUntil:
    string | null;
  @Instant({ nullable: true, description: 'PIN sign-in is locked until then.' }) pinLockedUntil:
    string | null;
  @Whole({ min: 1 }) version: number;
}

export class StaffListResponse {
  @ListOf(() => StaffMemberResponse) items: StaffMemberResponse[];
}
