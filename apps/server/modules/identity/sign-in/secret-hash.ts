import { randomBytes } from 'node:crypto';
import { hash, verify } from '@node-rs/argon2';

/**
 * Argon2id with 19 MiB, two passes, one lane: the first of the settings that OWASP gives as equal in strength
 * (Password Storage Cheat Sheet, "Argon2id"; the algorithm: RFC 9106). Argon2id is the library's default kind.
 */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

let decoy: Promise<string> | undefined;

/** The same letters typed on another keyboard give the same bytes (NFKC; NIST SP 800-63B asks for it). */
const bytesOf = (secret: string): string => secret.normalize('NFKC');

export function hashSecret(secret: string): Promise<string> {
  return hash(bytesOf(secret), COST);
}

/**
 * Whether this is the password or PIN that was kept. Where nothing is kept (no such person, no password) a hash that
 * nobody knows is compared instead, so that the answer takes as long and tells nothing.
 */
export async function matchesSecret(kept: string | null, given: string): Promise<boolean> {
  decoy ??= hashSecret(randomBytes(24).toString('base64'));
  const isSame = await verify(kept ?? (await decoy), bytesOf(given));
  return kept !== null && isSame;
}
