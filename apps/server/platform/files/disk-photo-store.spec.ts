import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buffer } from 'node:stream/consumers';
import { DiskPhotoStore, photoKey } from './index.js';

describe('photos on disk', () => {
  const shop = '0198a000-0000-7000-8000-000000000001';
  const key = photoKey(shop, 'ab'.repeat(32));
  let folder: string;
  let store: DiskPhotoStore;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'photos-'));
    store = new DiskPhotoStore(folder);
  });
  afterEach(() => {
    rmSync(folder, { recursive: true, force: true });
  });

  it('come back as they were put, each size by itself', async () => {
    await store.put(key, 'full', Buffer.from('whole'));
    expect(await store.open(key, 'small')).toBeUndefined();
    const opened = await store.open(key, 'full');
    expect(opened?.bytes).toBe(5);
    expect(opened && (await buffer(opened.stream)).toString()).toBe('whole');
  });

  it('may be put twice at once, and no draft stays', async () => {
    await Promise.all([1, 2, 3].map(() => store.put(key, 'small', Buffer.from('same'))));
    const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((f) => f.isFile());
    expect(files.map((f) => f.name)).toEqual([`${'ab'.repeat(32)}-small.webp`]);
  });

  it.each(['../../etc/passwd', `${shop}/ab/../../x`, '', key.toUpperCase(), `${key}/x`])(
    'have keys of our own making only: "%s" is none',
    async (bad) => {
      await expect(store.open(bad, 'full')).rejects.toThrow('is not the key of a photo');
      await expect(store.put(bad, 'full', Buffer.from('x'))).rejects.toThrow('is not the key of a photo');
    },
  );
});
