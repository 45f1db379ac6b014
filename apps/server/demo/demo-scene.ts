import { DateTime } from 'luxon';
import type { Role } from '#libs/access';
import type { LinkTokens } from '../modules/estimates/index.js';
import { Tx } from '../platform/database/tx.js';
import type { Ago, DemoPlace, Who } from './demo-stay.js';
import { known } from './must.js';

const MINUTE = 60_000;
const QUARTER = 15 * MINUTE;

interface Member {
  readonly id: string;
  readonly displayName: string;
  readonly roles: readonly Role[];
}

interface Found {
  readonly zone: string;
  /** By first name. */
  readonly staff: ReadonlyMap<string, Member>;
  /** Ids by number and by code. */
  readonly bays: ReadonlyMap<string, string>;
  readonly operations: ReadonlyMap<string, string>;
  readonly templateId: string;
}

/** The shop as it stands before the first car drives in, and its way to let people act at a moment that has passed. */
export class DemoScene {
  private constructor(
    private readonly tx: Tx,
    readonly tokens: LinkTokens,
    private readonly found: Found,
  ) {}

  get templateId(): string {
    return this.found.templateId;
  }

  static async of(tx: Tx, tokens: LinkTokens): Promise<DemoScene> {
    const staff = await tx.rows<Member>(
      `select id, display_name as "displayName", roles from staff where shop_id = $1`,
      [tx.shopId],
    );
    const keyed = async (sql: string): Promise<Map<string, string>> =>
      new Map((await tx.rows<{ key: string; id: string }>(sql, [tx.shopId])).map(({ key, id }) => [key, id]));
    const shop = await tx.one<{ zone: string }>('select time_zone as zone from shops where shop_id = $1', [
      tx.shopId,
    ]);
    const template = await tx.one<{ id: string }>('select id from inspection_templates where shop_id = $1', [
      tx.shopId,
    ]);
    return new DemoScene(tx, tokens, {
      zone: shop?.zone ?? 'UTC',
      staff: new Map(staff.map((member) => [member.displayName.split(' ')[0] ?? '', member])),
      bays: await keyed('select number::text as key, id from bays where shop_id = $1'),
      operations: await keyed('select code as key, id from operations where shop_id = $1'),
      templateId: template?.id ?? '',
    });
  }

  ago(minutes: Ago): Date {
    return new Date(this.tx.now.getTime() - minutes * MINUTE);
  }

  /** The same transaction, with this person acting at that time. What they announce is told to nobody: nobody watches yet. */
  as(who: Who, ago: Ago): Tx {
    const { id, displayName, roles } = known(this.found.staff, who);
    return new Tx(
      this.tx.shopId,
      { kind: 'staff', staffId: id, displayName, roles, sessionId: this.tx.newId() },
      this.ago(ago),
      this.tx.em,
      this.tx.wall,
    );
  }

  operationId(code: string): string {
    return known(this.found.operations, code);
  }

  /** A time of tomorrow by the clock on the shop's wall. */
  tomorrowAt(time: string): Date {
    const [hour = 0, minute = 0] = time.split(':').map(Number);
    const tomorrow = DateTime.fromJSDate(this.tx.now, { zone: this.found.zone }).plus({ days: 1 });
    return tomorrow.startOf('day').set({ hour, minute }).toJSDate();
  }

  staffId(who: Who): string {
    return known(this.found.staff, who).id;
  }

  /** The midnight that begins a weekday (1 is Monday) of a week ahead. */
  weekdayAhead({
    weeks,
    weekday,
  }: {
    readonly weeks: number;
    readonly weekday: 1 | 2 | 3 | 4 | 5;
  }): DateTime {
    const then = DateTime.fromJSDate(this.tx.now, { zone: this.found.zone }).plus({ weeks });
    return then.set({ weekday }).startOf('day');
  }

  place({ bay, who, from, minutes }: DemoPlace): {
    bayId: string;
    technicianId: string;
    startsAt: string;
    endsAt: string;
  } {
    const quarter = Math.floor(this.tx.now.getTime() / QUARTER) * QUARTER;
    const start =
      typeof from === 'number' ? quarter + from * MINUTE : this.tomorrowAt(from.tomorrowAt).getTime();
    return {
      bayId: known(this.found.bays, String(bay)),
      technicianId: this.staffId(who),
      startsAt: new Date(start).toISOString(),
      endsAt: new Date(start + minutes * MINUTE).toISOString(),
    };
  }
}
