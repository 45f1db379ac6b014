import { type Result, ok } from '#libs/kernel';
import { call } from '../../api/client.js';
import type { ApiFault } from '../../api/fault.js';
import type { Draft } from './draft.js';

const key = (value: string): Record<string, string> => ({ 'Idempotency-Key': `"${value}"` });

/** Sends the photo and then what happened; `onPhoto` is told the photo's id, so that it is not sent twice. */
export async function tell(
  contingencyId: string,
  draft: Draft,
  onPhoto: (photoId: string) => Promise<void>,
): Promise<Result<unknown, ApiFault>> {
  let { photoId } = draft;
  if (photoId === null) {
    const form = new FormData();
    form.set('photo', draft.photo ?? new Blob(), 'photo.jpg');
    const sent = await call('post', '/api/v1/contingencies/{id}/photos', {
      path: { id: contingencyId },
      // The description of the API has no type for what is sent as a form.
      body: form as never,
      headers: key(draft.photoKey),
    });
    if (!sent.ok) return sent;
    photoId = sent.value.id;
    await onPhoto(photoId);
  }
  const told = await call('post', '/api/v1/contingencies/{id}/trigger', {
    path: { id: contingencyId },
    body: { reason: draft.reason.trim(), photoId },
    headers: key(draft.key),
  });
  return told.ok ? ok(told.value) : told;
}
