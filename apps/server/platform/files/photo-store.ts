import type { Readable } from 'node:stream';

/** The whole picture, or the one for lists. */
export const PHOTO_SIZES = ['full', 'small'] as const;
export type PhotoSize = (typeof PHOTO_SIZES)[number];

export interface OpenedPhoto {
  readonly stream: Readable;
  readonly bytes: number;
}

/**
 * Where photos lie. A key names one photo in all its sizes and is never used for another: `<shop>/<aa>/<sha256>`,
 * with the digest of the file as it was sent. What is stored stays; a second `put` of a key changes nothing.
 * An abstract class and not an interface, so that it is its own injection token.
 */
export abstract class PhotoStore {
  /** Returns when the bytes are safe: a row that names the key may be committed. */
  abstract put(key: string, size: PhotoSize, bytes: Buffer): Promise<void>;
  /** Undefined where there is nothing under this key. The stream is the caller's to end. */
  abstract open(key: string, size: PhotoSize): Promise<OpenedPhoto | undefined>;
}

export function photoKey(shopId: string, sha256: string): string {
  return `${shopId}/${sha256.slice(0, 2)}/${sha256}`;
}
