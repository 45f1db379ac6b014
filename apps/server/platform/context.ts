import type { Role } from '#libs/access';

/** Who acts. Passed as the first argument everywhere; nothing reads it from the surroundings. */
export type Actor =
  | {
      readonly kind: 'staff';
      readonly staffId: string;
      readonly displayName: string;
      readonly roles: readonly Role[];
      readonly sessionId: string;
    }
  | { readonly kind: 'owner'; readonly linkId: string; readonly address: string; readonly userAgent: string }
  | { readonly kind: 'system'; readonly reason: string };

export interface Idempotency {
  readonly key: string;
  /** SHA-256 of method, address and payload: the same key with another payload is refused. */
  readonly fingerprint: string;
  readonly status: number;
}

export interface RequestContext {
  readonly shopId: string;
  readonly actor: Actor;
  /** When the access token ends; what goes on longer than a request must ask again by then. */
  readonly until?: Date;
  readonly idempotency?: Idempotency;
  /** Told when the stored answer of an earlier, equal request is given again. */
  readonly onReplay?: () => void;
}

export function systemContext(shopId: string, reason: string): RequestContext {
  return { shopId, actor: { kind: 'system', reason } };
}

/** The key under which an actor's own things are kept (idempotency keys). */
export function actorId(actor: Actor): string {
  if (actor.kind === 'staff') return actor.staffId;
  return actor.kind === 'owner' ? actor.linkId : '00000000-0000-0000-0000-000000000000';
}
