import { Email, OneOf, Text, Uuid } from '../../../platform/http/fields.js';
import { Secret } from './secret-field.js';

/** `cookie` for browsers: the refresh token is out of reach of scripts. `body` for programs. */
export const DELIVERIES = ['cookie', 'body'] as const;
export type Delivery = (typeof DELIVERIES)[number];
const HOW_DELIVERED = 'Where the refresh token travels: an HttpOnly cookie, or the answer.';

export class SignInRequest {
  @Email() email: string;
  @Secret({ min: 1, max: 200 }) password: string;
  @Text({ max: 60, optional: true, description: 'Short name of the shop, for an address known in several.' })
  shop?: string;
  @OneOf(DELIVERIES, { description: HOW_DELIVERED }) delivery: Delivery;
}

export class RefreshSessionRequest {
  @OneOf(DELIVERIES, { description: HOW_DELIVERED }) delivery: Delivery;
  @Text({ max: 100, optional: true, description: 'Needed with delivery "body".' }) refreshToken?: string;
}

export class PinSignInRequest {
  @Uuid() staffId: string;
  @Secret({ min: 4, max: 8, pattern: /^\d{4,8}$/, hint: 'A PIN has 4 to 8 digits.' }) pin: string;
  @OneOf(DELIVERIES, { description: HOW_DELIVERED }) delivery: Delivery;
}
