import { deflateSync } from 'node:zlib';
import sharp from 'sharp';

export interface PictureOptions {
  readonly width?: number;
  readonly height?: number;
  readonly colour?: string;
}

const blank = ({ width = 640, height = 400, colour = '#8a4b2f' }: PictureOptions) =>
  sharp({ create: { width, height, channels: 3, background: colour } });

/** A phone's picture: held sideways (EXIF orientation 6), with the place, the camera and a name written into it. */
export async function phoneJpeg(o: PictureOptions = {}): Promise<Buffer> {
  return blank(o)
    .jpeg()
    .withMetadata({ orientation: 6 })
    .withExifMerge({
      IFD0: {
        Make: 'Lumora',
        Model: 'P4',
        Artist: 'Bram Kerslake',
        ImageDescription: 'secret-note',
      },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 0/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 7/1 0/1',
      },
    })
    .toBuffer();
}

export const png = (o: PictureOptions = {}): Promise<Buffer> => blank(o).png().toBuffer();
export const webp = (o: PictureOptions = {}): Promise<Buffer> => blank(o).webp().toBuffer();
export const avif = (o: PictureOptions = {}): Promise<Buffer> => blank(o).avif({ effort: 0 }).toBuffer();
export const gif = (o: PictureOptions = {}): Promise<Buffer> => blank(o).gif().toBuffer();
export const tiff = (o: PictureOptions = {}): Promise<Buffer> => blank(o).tiff().toBuffer();

/** More than any limit: noise does not compress. */
export function hugeJpegLike(bytes: number): Buffer {
  const body = Buffer.alloc(bytes, 0x5a);
  Buffer.from([0xff, 0xd8, 0xff, 0xe0]).copy(body);
  return body;
}

/** A PNG of a hundred bytes that says it is 60 000 pixels wide and high: unpacked it would take 10 GB. */
export function bombPng(): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(60_000, 0);
  header.writeUInt32BE(60_000, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const data = deflateSync(Buffer.alloc(64));
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const crc = Buffer.alloc(4);
  crc.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, crc]);
}

/** CRC-32 as the PNG specification's appendix D has it. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
