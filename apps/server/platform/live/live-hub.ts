import { Injectable } from '@nestjs/common';
import { PgListener } from '../database/pg-listener.js';

export const LIVE_CHANNEL = 'bayledger_live';

/**
 * Knows which shop has news. The news itself is read from the table by whoever watches, so a notice that is lost
 * (reconnect, another process) costs nothing: the next one, or the reconnect, makes everybody read on.
 */
@Injectable()
export class LiveHub {
  private readonly watchers = new Map<string, Set<() => void>>();

  constructor(private readonly listener: PgListener) {
    listener.on('message', (_channel: string, payload: string) => {
      this.wake(payload.split(':')[0] ?? '');
    });
    listener.on('reconnected', () => {
      for (const shopId of this.watchers.keys()) this.wake(shopId);
    });
  }

  /** Calls `onNews` after every commit that changed something in the shop. Returns the way to stop. */
  watch(shopId: string, onNews: () => void): () => void {
    const set = this.watchers.get(shopId) ?? new Set();
    this.watchers.set(shopId, set);
    set.add(onNews);
    return () => {
      set.delete(onNews);
      if (set.size === 0) this.watchers.delete(shopId);
    };
  }

  async onApplicationShutdown(): Promise<void> {
    await this.listener.close();
  }

  private wake(shopId: string): void {
    for (const onNews of this.watchers.get(shopId) ?? []) onNews();
  }
}
