import { Injectable } from '@nestjs/common';
import jwt from 'jsonwebtoken';
import { isRole } from '#libs/access';
import type { Actor } from '../context.js';

const LIFE_SECONDS = 600;
const ISSUER = 'bayledger';

export interface SignedIn {
  readonly shopId: string;
  readonly actor: Extract<Actor, { kind: 'staff' }>;
  /** When the token ends. */
  readonly until: Date;
}

/** Short-lived and not looked up: what it says holds until it ends, at most ten minutes. HS256 and nothing else. */
@Injectable()
export class AccessTokens {
  constructor(private readonly secret: string) {}

  readonly lifeSeconds = LIFE_SECONDS;

  issue(shopId: string, actor: Extract<Actor, { kind: 'staff' }>): string {
    return jwt.sign(
      { shop: shopId, sid: actor.sessionId, roles: actor.roles, name: actor.displayName },
      this.secret,
      { algorithm: 'HS256', expiresIn: LIFE_SECONDS, issuer: ISSUER, subject: actor.staffId },
    );
  }

  read(token: string): SignedIn | undefined {
    try {
      const claims = jwt.verify(token, this.secret, { algorithms: ['HS256'], issuer: ISSUER });
      if (typeof claims === 'string') return undefined;
      const { sub, shop, sid, roles, name, exp } = claims as Record<string, unknown>;
      if (
        typeof sub !== 'string' ||
        typeof shop !== 'string' ||
        typeof sid !== 'string' ||
        typeof name !== 'string' ||
        typeof exp !== 'number'
      )
        return undefined;
      if (!Array.isArray(roles) || !roles.every(isRole)) return undefined;
      return {
        shopId: shop,
        actor: { kind: 'staff', staffId: sub, displayName: name, roles, sessionId: sid },
        until: new Date(exp * 1000),
      };
    } catch {
      return undefined;
    }
  }
}
