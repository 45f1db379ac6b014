import { PHOTO_SIZES, type PhotoSize } from '../../../platform/files/index.js';
import { OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

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
