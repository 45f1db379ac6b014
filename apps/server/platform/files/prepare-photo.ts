import { open } from 'node:fs/promises';
import sharp, { type Metadata } from 'sharp';
import { fail, ok, type Result } from '#libs/kernel';
import { photoKind } from './photo-kind.js';

export const PHOTO_MEDIA_TYPE = 'image/webp';
const FULL_PIXELS = 2048;
const SMALL_PIXELS = 480;
/** More than any phone takes in one picture (108 million); a small file can claim far more and fill the memory. */
const MOST_PIXELS = 120_000_000;
const READABLE = ['jpeg', 'png', 'webp', 'heif'];
const MOST_SECONDS = 60;

export interface PreparedPhoto {
  readonly full: Buffer;
  readonly small: Buffer;
  /** Of the full picture as it is shown. */
  readonly width: number;
  readonly height: number;
}

/**
 * A camera file as we keep it: turned upright, without any metadata (place, camera, owner), in sRGB, at most 2048 pixels
 * long, and a small one for lists. What cannot be read to its end is refused rather than kept half grey.
 */
export async function preparePhoto(path: string): Promise<Result<PreparedPhoto>> {
  const looked = await lookAt(path);
  if (!looked.ok) return looked;
  try {
    const full = await sharp(path, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
      .timeout({ seconds: MOST_SECONDS })
      .autoOrient()
      .resize({ width: FULL_PIXELS, height: FULL_PIXELS, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 82 })
      .toBuffer({ resolveWithObject: true });
    const small = await sharp(full.data)
      .resize({ width: SMALL_PIXELS, height: SMALL_PIXELS, fit: 'inside', withoutEnlargement: true })
      .webp({ quality: 75 })
      .toBuffer();
    return ok({ full: full.data, small, width: full.info.width, height: full.info.height });
  } catch {
    return notReadable;
  }
}

const notReadable = fail(
  'photo-not-readable',
  'The photo is damaged or was cut off on the way. Take it or send it again.',
);

function otherKind(detail: string): Result<never> {
  return fail('unsupported-media-type', detail, { facts: { accepted: ['JPEG', 'PNG', 'WebP', 'AVIF'] } });
}

async function lookAt(path: string): Promise<Result<void>> {
  const kind = photoKind(await headOf(path));
  if (kind === undefined)
    return otherKind('This file is not a photo. Send a JPEG, PNG, WebP or AVIF picture.');
  let found: Metadata;
  try {
    found = await sharp(path, { limitInputPixels: false }).metadata();
  } catch {
    return kind === 'heic' ? heic : notReadable;
  }
  if (found.compression === 'hevc') return heic;
  if (!READABLE.includes(found.format))
    return otherKind('This file is not a photo. Send a JPEG, PNG, WebP or AVIF picture.');
  const pixels = found.width * found.height;
  if (pixels <= MOST_PIXELS) return ok(undefined);
  return fail(
    'too-large',
    `The picture has ${Math.round(pixels / 1e6)} million pixels. Send a smaller one.`,
    {
      facts: { mostPixels: MOST_PIXELS },
    },
  );
}

const heic = otherKind('HEIC pictures cannot be read here. Set the phone to JPEG ("most compatible").');

async function headOf(path: string): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(32), 0, 32, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}

/** The size of a picture that was prepared earlier. */
export async function sizeOfPrepared(full: Buffer): Promise<{ width: number; height: number }> {
  const { width, height } = await sharp(full).metadata();
  return { width, height };
}
