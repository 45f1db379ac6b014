import { Controller, Headers, MessageEvent, Query, Sse } from '@nestjs/common';
import { ApiOperation, ApiProduces, ApiQuery, ApiTags } from '@nestjs/swagger';
import { Observable } from 'rxjs';
import { ok } from '#libs/kernel';
import type { RequestContext } from '../context.js';
import { UnitOfWork } from '../database/unit-of-work.js';
import { Ctx, May } from '../http/route.js';
import { LiveHub } from './live-hub.js';

interface EventRow {
  id: string;
  kind: string;
  subjects: Record<string, string>;
}

const BATCH = 500;
const HEARTBEAT_MS = 20_000;
const AGAIN_MS = 1_000;

@ApiTags('Live')
@Controller('live')
export class LiveController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly hub: LiveHub,
  ) {}

  @Sse()
  @May('board.read')
  @ApiOperation({
    summary: 'Server-sent events: what changed in the shop',
    description:
      'Events `change` with {kind, subjects} and an id. Send Last-Event-ID (or ?after=) to get what was missed; `reset` means: read everything again. `ping` comes every 20 s. The stream ends with the access token: come back with a fresh one.',
  })
  @ApiProduces('text/event-stream')
  @ApiQuery({ name: 'after', required: false })
  watch(
    @Ctx() ctx: RequestContext,
    @Headers('last-event-id') lastEventId?: string,
    @Query('after') after?: string,
  ): Observable<MessageEvent> {
    const from = lastEventId ?? after;
    return new Observable<MessageEvent>((subscriber) => {
      const end = (): void => subscriber.complete();
      const stream = new EventStream(this.uow, ctx, (event) => subscriber.next(event));
      const stop = this.hub.watch(ctx.shopId, { news: () => stream.pump(), end });
      const heartbeat = setInterval(() => stream.ping(), HEARTBEAT_MS);
      // Whoever lost the right to watch would otherwise go on watching for as long as the connection holds.
      const expiry = setTimeout(end, Math.max(0, (ctx.until?.getTime() ?? 0) - Date.now()));
      // Where the stream begins is not known: the reader comes back, by itself, rather than hear nothing for ever.
      stream.start(from).catch(end);
      return () => {
        stream.stop();
        clearInterval(heartbeat);
        clearTimeout(expiry);
        stop();
      };
    });
  }
}

/** Reads on from the last id, one read at a time; news during a read makes one more. */
class EventStream {
  private last: string | undefined;
  private reading = false;
  private again = false;
  private stopped = false;

  constructor(
    private readonly uow: UnitOfWork,
    private readonly ctx: RequestContext,
    private readonly send: (event: MessageEvent) => void,
  ) {}

  /**
   * With the last id: an event without one would be given one that is not ours, and a reader would name that. Looks for
   * news too, so that a notice that got lost on the way makes a screen late and not wrong.
   */
  ping(): void {
    if (this.last !== undefined) this.send({ type: 'ping', id: this.last, data: '' });
    this.pump();
  }

  stop(): void {
    this.stopped = true;
  }

  /** Rejects when the database does not answer. */
  async start(from: string | undefined): Promise<void> {
    const { oldest, newest } = await this.kept();
    const wanted = from !== undefined && /^\d{1,18}$/.test(from) ? BigInt(from) : undefined;
    // From an id of the future, or one whose followers may be gone already, there is nothing to read on from. 0 asks for
    // whatever is kept.
    const known =
      wanted !== undefined && wanted <= BigInt(newest) && (wanted >= BigInt(oldest) || wanted === 0n);
    this.last = known ? String(wanted) : newest;
    // The first message also tells the reader where it stands, so that a reconnect has an id to name.
    this.send({ type: from === undefined || known ? 'ready' : 'reset', id: this.last, data: {} });
    this.pump();
  }

  pump(): void {
    if (this.last === undefined || this.stopped) return;
    if (this.reading) {
      this.again = true;
      return;
    }
    this.reading = true;
    void this.readOn().finally(() => {
      this.reading = false;
      if (this.again) {
        this.again = false;
        this.pump();
      }
    });
  }

  private async readOn(): Promise<void> {
    try {
      for (;;) {
        const rows = await this.uow.read(this.ctx, async (tx) =>
          ok(
            await tx.rows<EventRow>(
              'select id::text, kind, subjects from live_events where shop_id = $1 and id > $2 order by live_events.id limit $3',
              [tx.shopId, this.last, BATCH],
            ),
          ),
        );
        for (const row of rows) {
          if (this.stopped) return;
          this.last = row.id;
          this.send({ type: 'change', id: row.id, data: { kind: row.kind, subjects: row.subjects } });
        }
        if (rows.length < BATCH) return;
      }
    } catch {
      // The database was away or busy. The next read begins where this one did, so nothing between is lost.
      this.again = false;
      setTimeout(() => this.pump(), AGAIN_MS).unref();
    }
  }

  private async kept(): Promise<{ oldest: string; newest: string }> {
    return this.uow.read(this.ctx, async (tx) => {
      const row = await tx.one<{ oldest: string; newest: string }>(
        `select coalesce(min(id), 0)::text as oldest, coalesce(max(id), 0)::text as newest
           from live_events where shop_id = $1`,
        [tx.shopId],
      );
      return ok(row ?? { oldest: '0', newest: '0' });
    });
  }
}
