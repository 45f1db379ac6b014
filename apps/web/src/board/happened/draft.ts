import { uuid } from '../../api/uuid.js';

/** What somebody has begun to tell about a contingency: kept on this device until it has arrived. */
export interface Draft {
  readonly reason: string;
  readonly photo: Blob | null;
  /** Once the photo has arrived. */
  readonly photoId: string | null;
  /** Idempotency keys: the same sending again, however much later, is known as the same. */
  readonly photoKey: string;
  readonly key: string;
}

export const emptyDraft = (): Draft => ({
  reason: '',
  photo: null,
  photoId: null,
  photoKey: uuid(),
  key: uuid(),
});

/** Another request needs another key. */
export const withReason = (draft: Draft, reason: string): Draft => ({ ...draft, reason, key: uuid() });
export const withPhoto = (draft: Draft, photo: Blob): Draft => ({
  ...draft,
  photo,
  photoId: null,
  photoKey: uuid(),
  key: uuid(),
});

const NAME = 'bayledger.happened';
const STORE = 'drafts';

function database(): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    const opening = indexedDB.open(NAME, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore(STORE);
    opening.onsuccess = () => done(opening.result);
    opening.onerror = () => failed(opening.error ?? new Error('the store of drafts does not open'));
  });
}

async function inStore(
  mode: IDBTransactionMode,
  act: (store: IDBObjectStore) => IDBRequest,
): Promise<unknown> {
  const opened = await database();
  try {
    return await new Promise((done, failed) => {
      const asked = act(opened.transaction(STORE, mode).objectStore(STORE));
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => failed(asked.error ?? new Error('the store of drafts does not answer'));
    });
  } finally {
    opened.close();
  }
}

/**
 * Drafts of one person: on a tablet that people share, nobody finds what another has begun. Where the browser keeps
 * nothing (a private window), the draft lives as long as the page.
 */
export class Drafts {
  constructor(private readonly staffId: string) {}

  private key(contingencyId: string): string {
    return `${this.staffId} ${contingencyId}`;
  }

  async read(contingencyId: string): Promise<Draft | null> {
    const found = await inStore('readonly', (store) => store.get(this.key(contingencyId))).catch(() => null);
    return (found as Draft | undefined) ?? null;
  }

  async keep(contingencyId: string, draft: Draft): Promise<void> {
    await inStore('readwrite', (store) => store.put(draft, this.key(contingencyId))).catch(() => undefined);
  }

  async drop(contingencyId: string): Promise<void> {
    await inStore('readwrite', (store) => store.delete(this.key(contingencyId))).catch(() => undefined);
  }
}
