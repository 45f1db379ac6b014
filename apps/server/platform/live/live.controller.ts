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
      'Events `change` with {kind, subjects} and an id. Send Last-Event-ID (or ?after=) to get what was missed; `reset` means: read everything again. `ping` comes every 20 s.',
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
      const stream = new EventStream(this.uow, ctx, (event) => subscriber.next(event));
      const stop = this.hub.watch(ctx.shopId, () => stream.pump());
      const heartbeat = setInterval(() => subscriber.next({ type: 'ping', data: '' }), HEARTBEAT_MS);
      void stream.start(from);
      return () => {
        stream.stop();
        clearInterval(heartbeat);
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

  stop(): void {
    this.stopped = true;
  }

  async start(from: string | undefined): Promise<void> {
    try {
      const newest = await this.newest();
      const wanted = from !== undefined && /^\d{1,18}$/.test(from) ? from : undefined;
      const unknown = wanted !== undefined && BigInt(wanted) > BigInt(newest);
      this.last = wanted === undefined || unknown ? newest : wanted;
      // The first message also tells the reader where it stands, so that a reconnect has an id to name.
      this.send({
        type: from !== undefined && (wanted === undefined || unknown) ? 'reset' : 'ready',
        id: this.last,
        data: {},
      });
      this.pump();
    } catch {
      this.send({ type: 'reset', data: {} });
    }
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
              'select id::text, kind, subjects from live_events where shop_id = $1 and id > $2 order by id limit $3',
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
      // The database was away; the listener's reconnect wakes us again and nothing between is lost.
      this.again = false;
    }
  }

  private async newest(): Promise<string> {
    return this.uow.read(this.ctx, async (tx) => {
      const row = await tx.one<{ id: string }>(
        'select coalesce(max(id), 0)::text as id from live_events where shop_id = $1',
        [tx.shopId],
      );
      return ok(row?.id ?? '0');
    });
  }
}
