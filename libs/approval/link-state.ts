export type LinkState = 'open' | 'expired' | 'revoked';

/**
 * Whether an approval link still opens. It is open in [sent, expiresAt): at the very instant of expiry it is closed.
 * A link that was taken back says so even after its expiry, because that is what the owner needs to hear.
 */
export function linkState(link: {
  readonly expiresAt: Date;
  readonly revokedAt: Date | null;
  readonly now: Date;
}): LinkState {
  if (link.revokedAt !== null) return 'revoked';
  return link.now.getTime() < link.expiresAt.getTime() ? 'open' : 'expired';
}
