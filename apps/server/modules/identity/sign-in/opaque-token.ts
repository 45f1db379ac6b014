import { createHash, createHmac, randomBytes } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { Config } from '../../../platform/config.js';
import { CONFIG } from '../../../platform/tokens.js';

const SHOP_BYTES = 16;
const SECRET_BYTES = 32;
/** 48 bytes in base64url: no padding, always 64 characters. */
const FORM = /^[A-Za-z0-9_-]{64}$/;

/** Refresh and device tokens: the shop's id, then 256 bits that only the holder has. We keep the digest alone. */
export function tokenHash(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}

/** The shop that a token belongs to, as it says itself; whether it is a token of ours, only the digest tells. */
export function shopOfToken(token: string | undefined): string | undefined {
  if (token === undefined || !FORM.test(token)) return undefined;
  const hex = Buffer.from(token, 'base64url').subarray(0, SHOP_BYTES).toString('hex');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}

export function newToken(shopId: string): string {
  return assemble(shopId, randomBytes(SECRET_BYTES));
}

function assemble(shopId: string, secret: Buffer): string {
  return Buffer.concat([Buffer.from(shopId.replaceAll('-', ''), 'hex'), secret]).toString('base64url');
}

/** Tokens that are computed, so that the same request asked again gives the same token without our keeping it. */
@Injectable()
export class DerivedTokens {
  constructor(@Inject(CONFIG) private readonly config: Pick<Config, 'jwtSecret'>) {}

  /** What follows a refresh token. A repeat within the grace gives the same one, so a chain never branches. */
  successor(shopId: string, token: string): string {
    return assemble(shopId, this.derive('refresh', token));
  }

  /** A tablet's token. The answer kept for an Idempotency-Key therefore need not hold it. */
  ofDevice(shopId: string, deviceId: string): string {
    return assemble(shopId, this.derive('device', `${shopId}/${deviceId}`));
  }

  private derive(purpose: string, text: string): Buffer {
    return createHmac('sha256', this.config.jwtSecret).update(`bayledger ${purpose}\n${text}`).digest();
  }
}
