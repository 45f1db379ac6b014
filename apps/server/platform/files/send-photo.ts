import type { FastifyReply, FastifyRequest } from 'fastify';
import { problem } from '../http/problem-error.js';
import type { PhotoSize, PhotoStore } from './photo-store.js';

/** What a row says about a stored photo. */
export interface PhotoFile {
  readonly storageKey: string;
  readonly sha256: string;
  readonly mediaType: string;
}

/**
 * Answers with the picture. Browsers keep it but ask each time (`no-cache`), so that whoever is not allowed any more is
 * refused; the question costs a 304 without a body. Never guessed to be anything but a picture, and never a page.
 */
export async function sendPhoto(
  store: PhotoStore,
  photo: PhotoFile,
  size: PhotoSize,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<void> {
  const tag = `"${photo.sha256.slice(0, 32)}-${size}"`;
  void reply
    .header('cache-control', 'private, no-cache')
    .header('etag', tag)
    .header('x-content-type-options', 'nosniff')
    .header('content-security-policy', `default-src 'none'; sandbox`)
    .header('content-disposition', 'inline; filename="photo.webp"');
  const known = (request.headers['if-none-match'] ?? '').split(',').map((t) => t.trim().replace(/^W\//, ''));
  if (known.includes(tag)) {
    await reply.code(304).send();
    return;
  }
  const opened = await store.open(photo.storageKey, size);
  if (!opened) throw problem('not-found', 'The file of this photo is gone from the store.');
  await reply
    .header('content-type', photo.mediaType)
    .header('content-length', opened.bytes)
    .send(opened.stream);
}
