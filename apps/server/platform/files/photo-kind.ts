export type PhotoKind = 'jpeg' | 'png' | 'webp' | 'avif' | 'heic';

/**
 * What a file is by its first bytes (32 are enough), whatever its name or declared type says. Undefined for everything
 * that is not a photo: those never reach the image library, which would also draw SVG and PDF.
 * Signatures: JPEG ISO/IEC 10918-1 B.1.1 (SOI), PNG (W3C) 5.2, WebP container RFC 9649, ISO/IEC 14496-12 `ftyp` with
 * the brands of AVIF and HEIF (ISO/IEC 23008-12); from memory.
 */
export function photoKind(head: Buffer): PhotoKind | undefined {
  if (head.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return 'jpeg';
  if (head.subarray(0, 8).equals(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))) return 'png';
  const text = head.toString('latin1');
  if (text.startsWith('RIFF') && text.startsWith('WEBP', 8)) return 'webp';
  if (!text.startsWith('ftyp', 4)) return undefined;
  const brand = text.slice(8, 12);
  if (['avif', 'avis'].includes(brand)) return 'avif';
  return ['heic', 'heix', 'hevc', 'mif1', 'msf1'].includes(brand) ? 'heic' : undefined;
}
