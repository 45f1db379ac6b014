import { fail, type Failed } from '#libs/kernel';

/** A promised time is one that the owner can still wait for; null and left out promise nothing. */
export function promiseFault(promisedAt: string | null | undefined, notBefore: Date): Failed | undefined {
  if (promisedAt == null || new Date(promisedAt) > notBefore) return undefined;
  return fail('request-invalid', 'The promised time lies before the drop-off or before now.', {
    fields: [{ pointer: '/promisedAt', detail: 'Promise a time that is still to come.' }],
  });
}
