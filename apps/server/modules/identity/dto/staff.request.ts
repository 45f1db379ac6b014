import { ROLES, type Role } from '#libs/access';
import { Email, Flag, Text, TextList } from '../../../platform/http/fields.js';
import { PASSWORD_MAX, PASSWORD_MIN } from '../sign-in/secret-policy.js';
import { Secret } from './secret-field.js';

export class AddStaffRequest {
  @Text({ max: 80 }) displayName: string;
  @Email({ optional: true, nullable: true, description: 'For signing in with a password.' })
  email?: string | null;
  @TextList({ values: ROLES, max: 4 }) roles: Role[];
}

export class ChangeStaffRequest {
  @Text({ max: 80, optional: true }) displayName?: string;
  @Email({ optional: true, nullable: true }) email?: string | null;
  @TextList({ values: ROLES, max: 4, optional: true }) roles?: Role[];
  @Flag({ optional: true, description: 'False ends all sessions of this person.' }) isActive?: boolean;
}

export class SetPasswordRequest {
  @Secret({ min: PASSWORD_MIN, max: PASSWORD_MAX }) password: string;
  @Secret({ min: 1, max: PASSWORD_MAX, optional: true, description: 'Needed to change the own one.' })
  currentPassword?: string;
}

export class SetPinRequest {
  @Secret({
    min: 4,
    max: 8,
    pattern: /^\d{4,8}$/,
    hint: 'A PIN has 4 to 8 digits.',
    nullable: true,
    description: 'Null takes the PIN away.',
  })
  pin: string | null;
}
