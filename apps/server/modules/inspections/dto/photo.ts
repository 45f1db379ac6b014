import { PHOTO_SIZES, type PhotoSize } from '../../../platform/files/index.js';
import { OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

/** How a photo is sent, for the description of each route that takes one. */
export const PHOTO_UPLOAD = {
  schema: {
    type: 'object' as const,
    required: ['photo'],
    properties: { photo: { type: 'string' as const, format: 'binary' } },
  },
};
export const PHOTO_HOW =
  'One JPEG, PNG, WebP or AVIF picture of at most 25 MiB in the field `photo`. It is turned upright and kept without its metadata. The same picture again is the one that is there.';

export class PhotoQuery {
  @OneOf(PHOTO_SIZES, { optional: true, description: 'full (at most 2048 pixels) unless given.' })
  size?: PhotoSize;
}

export class PhotoResponse {
  @Uuid() id: string;
  @Text() mediaType: string;
  @Whole({ min: 1 }) width: number;
  @Whole({ min: 1 }) height: number;
  @Whole({ min: 1 }) bytes: number;
  @Text({ description: 'RFC 3339.' }) addedAt: string;
}
