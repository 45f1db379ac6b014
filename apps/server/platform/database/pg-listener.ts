import { EventEmitter } from 'node:events';
import pg from 'pg';

export interface PgListenerEvents {
  /** A notice on one of the channels. */
  message: [channel: string, payload: string];
  /** The connection broke; reconnecting has begun. */
  lost: [reason: string];
  /** Listening again. Notices sent meanwhile are lost, so whoever follows them must read the state anew. */
  reconnected: [];
}

export interface PgListenerOptions {
  /** Milliseconds between signs of life; a silent connection of a dead host would otherwise look healthy for hours. */
  readonly heartbeatMs?: number;
}

const CONNECT_LIMIT_MS = 5_000;
const FIRST_DELAY_MS = 100;
const LONGEST_DELAY_MS = 5_000;

/**
 * LISTEN on a connection of its own, never one of a pool: a pooled connection may be closed or handed on, and a
 * transaction-pooling proxy drops LISTEN altogether.
 */
export class PgListener extends EventEmitter<PgListenerEvents> {
  private readonly channels = new Set<string>();
  private client: pg.Client | undefined;
  private timer: NodeJS.Timeout | undefined;
  private closed = false;

  constructor(
    private readonly conn: pg.ClientConfig,
    private readonly options: PgListenerOptions = {},
  ) {
    super();
  }

  /** Connects and listens on all channels named so far. Rejects when the first connection fails; later ones are retried. */
  async connect(): Promise<void> {
    const client = new pg.Client({
      connectionTimeoutMillis: CONNECT_LIMIT_MS,
      ...this.conn,
      keepAlive: true,
    });
    client.on('notification', ({ channel, payload }) => this.emit('message', channel, payload ?? ''));
    client.on('error', (error) => this.lose(client, error.message));
    client.on('end', () => this.lose(client, 'the connection was closed'));
    try {
      await client.connect();
      for (const channel of this.channels) await client.query(`listen ${pg.escapeIdentifier(channel)}`);
    } catch (error) {
      void client.end().catch(() => undefined);
      throw error;
    }
    if (this.isClosed()) return client.end();
    this.client = client;
    this.scheduleHeartbeat(client);
  }

  /** Adds a channel. Takes effect at once when connected, else with the connection. */
  async listen(channel: string): Promise<void> {
    this.channels.add(channel);
    await this.client?.query(`listen ${pg.escapeIdentifier(channel)}`);
  }

  async close(): Promise<void> {
    this.closed = true;
    clearTimeout(this.timer);
    const client = this.client;
    this.client = undefined;
    await client?.end().catch(() => undefined);
  }

  private isClosed(): boolean {
    return this.closed;
  }

  private lose(client: pg.Client, reason: string): void {
    if (this.client !== client) return; // a second word about the same loss, or one about a connection never used
    this.client = undefined;
    void client.end().catch(() => undefined);
    this.emit('lost', reason);
    this.scheduleReconnect(FIRST_DELAY_MS);
  }

  private scheduleReconnect(delay: number): void {
    this.schedule(delay, async () => {
      try {
        await this.connect();
        if (!this.closed) this.emit('reconnected');
      } catch {
        this.scheduleReconnect(Math.min(delay * 2, LONGEST_DELAY_MS));
      }
    });
  }

  private scheduleHeartbeat(client: pg.Client): void {
    const every = this.options.heartbeatMs ?? 15_000;
    this.schedule(every, async () => {
      const answered = await answersWithin(client, every);
      if (this.client !== client) return;
      if (answered) this.scheduleHeartbeat(client);
      else this.lose(client, 'no sign of life');
    });
  }

  /** One timer serves both states: a live connection waits for its next heartbeat, a lost one for its next attempt. */
  private schedule(ms: number, act: () => Promise<void>): void {
    clearTimeout(this.timer);
    if (this.closed) return;
    this.timer = setTimeout(() => void act(), ms).unref();
  }
}

async function answersWithin(client: pg.Client, ms: number): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), ms);
    timer.unref();
  });
  const answer = client.query('select 1').then(
    () => true,
    () => false,
  );
  const answered = await Promise.race([answer, late]);
  clearTimeout(timer);
  return answered;
}
