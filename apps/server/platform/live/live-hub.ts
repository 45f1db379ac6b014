import { Injectable } from '@nestjs/common';
import { PgListener } from '../database/pg-listener.js';

export const LIVE_CHANNEL = 'bayledger_live';

export interface Watcher {
  /** After every commit that changed something in the shop. */
  news(): void;
  /** The server stops. */
  end(): void;
}

/**
 * Knows which shop has news. The news itself is read from the table by whoever watches, so a notice that is lost
 * (reconnect, another process) costs nothing: the next one, or the reconnect, makes everybody read on.
 */
@Injectable()
export class LiveHub {
  private readonly watchers = new Map<string, Set<Watcher>>();

  constructor(private readonly listener: PgListener) {
    listener.on('message', (_channel: string, payload: string) => {
      this.wake(payload.split(':')[0] ?? '');
    });
    listener.on('reconnected', () => {
      for (const shopId of this.watchers.keys()) this.wake(shopId);
    });
  }

  /** Returns the way to stop. */
  watch(shopId: string, watcher: Watcher): () => void {
    const set = this.watchers.get(shopId) ?? new Set();
    this.watchers.set(shopId, set);
    set.add(watcher);
    return () => {
      set.delete(watcher);
      if (set.size === 0 && this.watchers.get(shopId) === set) this.watchers.delete(shopId);
    };
  }

  /** Before the web server closes: it waits for every answer that is under way, and a stream never ends by itself. */
  beforeApplicationShutdown(): void {
    for (const set of [...this.watchers.values()]) for (const watcher of [...set]) watcher.end();
  }

  async onApplicationShutdown(): Promise<void> {
    await this.listener.close();
  }

  private wake(shopId: string): void {
    for (const watcher of this.watchers.get(shopId) ?? []) watcher.news();
  }
}
