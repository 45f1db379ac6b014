import { createHash, createHmac, hkdfSync } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { Config } from '../../platform/config.js';
import { CONFIG } from '../../platform/tokens.js';

const UUID_BYTES = 16;
const SECRET_BYTES = 32;
const TOKEN = /^[A-Za-z0-9_-]{64}$/;

/** What a link's token says: whose it is, and by which hash the link is found. */
export interface ReadToken {
  readonly shopId: string;
  readonly tokenHash: string;
}

/**
 * The tokens of approval links: 16 bytes of the shop (so that row-level security can be set before the link is looked up)
 * and 32 bytes that nobody can guess, in base64url. Only the SHA-256 of a token is stored. The 32 bytes are an HMAC of the
 * link's id under a key of this server instead of a draw of the dice: a repeat of the request that made the link can be
 * given the same address again, although the address is nowhere kept.
 */
@Injectable()
export class LinkTokens {
  private readonly key: Buffer;

  constructor(@Inject(CONFIG) private readonly config: Config) {
    this.key = Buffer.from(
      hkdfSync('sha256', config.jwtSecret, '', 'bayledger approval links', SECRET_BYTES),
    );
  }

  tokenOf(shopId: string, linkId: string): string {
    const shop = Buffer.from(shopId.replaceAll('-', ''), 'hex');
    const secret = createHmac('sha256', this.key).update(`${shopId}:${linkId}`).digest();
    return Buffer.concat([shop, secret]).toString('base64url');
  }

  /** The whole address; `origin` is where the request came in, for a server that was not told its public address. */
  urlOf(shopId: string, linkId: string, origin: string): string {
    const base = (this.config.publicUrl ?? origin).replace(/\/+$/, '');
    return `${base}/o/${this.tokenOf(shopId, linkId)}`;
  }

  /** Undefined for a text that cannot be a token of ours. */
  read(token: string): ReadToken | undefined {
    if (!TOKEN.test(token)) return undefined;
    const hex = Buffer.from(token, 'base64url').subarray(0, UUID_BYTES).toString('hex');
    const shopId = [8, 12, 16, 20].reduceRight((text, at) => `${text.slice(0, at)}-${text.slice(at)}`, hex);
    return { shopId, tokenHash: hashOf(token) };
  }
}

export function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
