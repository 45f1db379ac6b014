import { ACTIONS, ROLES, type Role } from '#libs/access';
import { Instant, Nested, OneOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';

export class SessionStaffResponse {
  @Uuid() id: string;
  @Text() displayName: string;
  @TextList({ values: ROLES, description: 'A session opened with a PIN never carries "administrator".' })
  roles: Role[];
}

export class SessionShopResponse {
  @Uuid() id: string;
  @Text() name: string;
  @Text({ description: 'IANA zone in which the shop counts its days.' }) timeZone: string;
  @Text({ description: 'ISO 4217.' }) currency: string;
}

export class OpenedSessionResponse {
  @Text({ max: 4000, description: 'Send it as "Authorization: Bearer …".' }) accessToken: string;
  @Whole({ min: 1, unit: 'seconds' }) expiresInSeconds: number;
  @Text({ optional: true, description: 'Only with delivery "body". Good for one use.' })
  refreshToken?: string;
  @Nested(() => SessionStaffResponse) staff: SessionStaffResponse;
  @Nested(() => SessionShopResponse) shop: SessionShopResponse;
}

export class CurrentSessionResponse {
  @Nested(() => SessionStaffResponse) staff: SessionStaffResponse;
  @Nested(() => SessionShopResponse) shop: SessionShopResponse;
  @OneOf(['password', 'pin']) how: string;
  @Instant() startedAt: string;
  @Instant({ description: 'Sign in again then, however often the session was refreshed.' }) expiresAt: string;
  @TextList({ values: ACTIONS, description: 'What the roles allow.' }) may: string[];
}
