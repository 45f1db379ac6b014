import { readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { buffer } from 'node:stream/consumers';
import type { FastifyRequest } from 'fastify';
import { ProblemError } from '../http/problem-error.js';
import { photoKey, PhotoStore } from './photo-store.js';
import { PHOTO_MEDIA_TYPE, preparePhoto, sizeOfPrepared } from './prepare-photo.js';
import { receiveFile } from './receive-file.js';

/** A photo that lies in the store; a row may name it. */
export interface TakenPhoto {
  readonly storageKey: string;
  /** Digest of the file as it was sent: the same file again is the same photo. */
  readonly sha256: string;
  readonly mediaType: string;
  readonly width: number;
  readonly height: number;
  /** Of the full picture as it is kept. */
  readonly bytes: number;
}

const LEFT_BEHIND_MS = 3_600_000;

/** Takes the photo of a request in: received, checked, made upright and anonymous, stored. */
export class PhotoIntake {
  constructor(
    private readonly store: PhotoStore,
    private readonly folder: string,
  ) {}

  /** Throws a ProblemError for what is not a photo. A transaction that then fails leaves the files: they harm nobody. */
  async take(shopId: string, request: FastifyRequest): Promise<TakenPhoto> {
    const file = await receiveFile(request, 'photo', this.folder);
    try {
      const key = photoKey(shopId, file.sha256);
      const size = (await this.known(key)) ?? (await this.prepare(key, file.path));
      return { storageKey: key, sha256: file.sha256, mediaType: PHOTO_MEDIA_TYPE, ...size };
    } finally {
      await file.discard();
    }
  }

  private async prepare(
    key: string,
    path: string,
  ): Promise<{ width: number; height: number; bytes: number }> {
    const prepared = await preparePhoto(path);
    if (!prepared.ok) throw new ProblemError(prepared.fault);
    const { full, small, width, height } = prepared.value;
    // The full one last: where it is, both are.
    await this.store.put(key, 'small', small);
    await this.store.put(key, 'full', full);
    return { width, height, bytes: full.length };
  }

  /** A tablet on weak Wi-Fi sends a photo again; it need not be worked on twice. */
  private async known(key: string): Promise<{ width: number; height: number; bytes: number } | undefined> {
    const stored = await this.store.open(key, 'full');
    if (!stored) return undefined;
    return { ...(await sizeOfPrepared(await buffer(stored.stream))), bytes: stored.bytes };
  }

  /** Files of uploads that a killed process left behind. */
  async sweep(now: Date): Promise<void> {
    const names = await readdir(this.folder).catch(() => []);
    for (const name of names) {
      const path = join(this.folder, name);
      const found = await stat(path).catch(() => undefined);
      if (found && now.getTime() - found.mtimeMs > LEFT_BEHIND_MS) await rm(path, { force: true });
    }
  }
}
