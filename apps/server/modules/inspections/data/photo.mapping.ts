import type { PhotoResponse } from '../dto/photo.js';

/** A photo as SQL builds it in JSON. */
export type PhotoJson = PhotoResponse;

/** Photos of observation `o` as a JSON list, in the order in which they came. */
export function photosJson(condition: string): string {
  return `coalesce((select json_agg(json_build_object('id', p.id, 'mediaType', p.media_type, 'width', p.width, 'height', p.height,
      'bytes', p.bytes, 'addedAt', p.added_at) order by p.added_at, p.id) from photos p where ${condition}), '[]')`;
}

export function photoResponses(photos: readonly PhotoJson[]): PhotoResponse[] {
  return photos.map((photo) => ({ ...photo, addedAt: new Date(photo.addedAt).toISOString() }));
}
