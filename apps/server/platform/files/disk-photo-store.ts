import { randomUUID } from 'node:crypto';
import { mkdir, open, rename, rm, type FileHandle } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { PhotoStore, type OpenedPhoto, type PhotoSize } from './photo-store.js';

const KEY = /^[0-9a-f-]{36}\/[0-9a-f]{2}\/[0-9a-f]{64}$/;

/** Photos in a folder: written beside their place, flushed, then renamed, so that no reader sees half a file. */
export class DiskPhotoStore extends PhotoStore {
  constructor(private readonly root: string) {
    super();
  }

  async put(key: string, size: PhotoSize, bytes: Buffer): Promise<void> {
    const path = this.pathOf(key, size);
    const folder = dirname(path);
    await mkdir(folder, { recursive: true, mode: 0o700 });
    const draft = `${path}.${randomUUID()}.tmp`;
    try {
      const file = await open(draft, 'wx', 0o600);
      try {
        await file.writeFile(bytes);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(draft, path);
    } catch (error) {
      await rm(draft, { force: true });
      throw error;
    }
    await syncFolder(folder);
  }

  async open(key: string, size: PhotoSize): Promise<OpenedPhoto | undefined> {
    let file: FileHandle;
    try {
      file = await open(this.pathOf(key, size), 'r');
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
      throw error;
    }
    const { size: bytes } = await file.stat();
    return { stream: file.createReadStream(), bytes };
  }

  /** A key comes from our own rows; one of another form would be a way out of the folder. */
  private pathOf(key: string, size: PhotoSize): string {
    if (!KEY.test(key)) throw new Error(`"${key}" is not the key of a photo`);
    return join(this.root, `${key}-${size}.webp`);
  }
}

/** Makes the new name itself survive a power cut; systems that cannot flush a folder do it on their own. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch {
    // Windows refuses to open a folder
  }
}
