import { DateTime } from 'luxon';
import { demoShop, type DemoShop } from '../support/demo-shop.js';
import type { Person } from '../support/shop-under-test.js';

interface Ticket {
  readonly workOrderNumber: number;
  readonly title: string;
  readonly state: string;
  readonly canStart: boolean;
  readonly unsafe: boolean;
  readonly bookHundredths: number;
  readonly clockedSeconds: number;
  readonly holds: readonly { readonly kind: string; readonly until: string | null }[];
  readonly claim: { readonly displayName: string } | null;
  readonly assignment: {
    readonly bayId: string;
    readonly technicianId: string;
    readonly startsAt: string;
    readonly endsAt: string;
  } | null;
}
interface Board {
  readonly day: string;
  readonly bays: readonly { readonly id: string; readonly clockedOn: readonly unknown[] }[];
  readonly technicians: readonly { readonly displayName: string }[];
  readonly tickets: readonly Ticket[];
}

const ZONE = 'America/New_York';

// The shop's zone changes its clocks on 2026-03-08 at 02:00 and on 2026-11-01 at 02:00 (IANA tzdata).
describe.each([
  ['on an ordinary morning', '2026-03-11T10:37:00-04:00'],
  ['in the first minute of a month', '2026-05-01T00:00:30-04:00'],
  ['on the last evening of a year', '2026-12-31T23:52:00-05:00'],
  ['in the night in which an hour is left out', '2026-03-08T03:10:00-04:00'],
  ['in the hour that comes twice', '2026-11-01T01:20:00-05:00'],
])('the demonstration shop, made %s', (_when, at) => {
  let shop: DemoShop;
  let manager: Person;
  beforeAll(async () => {
    shop = await demoShop(at);
    manager = await shop.signIn('orla@kestrelyard.example', 'manager-demo');
  });
  afterAll(() => shop.stop());
  const get = async <T>(path: string): Promise<T> => (await manager.get(path).expect(200)).body as T;

  it('shows a floor in the middle of its day', async () => {
    const board = await get<Board>('/board');
    const now = shop.clock.now();
    expect(board.day).toBe(DateTime.fromJSDate(now, { zone: ZONE }).toISODate());
    const inState = (state: string): readonly Ticket[] =>
      board.tickets.filter((ticket) => ticket.state === state);

    const running = inState('on-the-clock');
    expect(running).toHaveLength(2);
    const over = running.filter((t) => t.clockedSeconds > t.bookHundredths * 36);
    expect(over).toHaveLength(1);
    expect(board.bays.filter(({ clockedOn }) => clockedOn.length > 0)).toHaveLength(2);

    const [paused, ...more] = inState('paused');
    expect(more).toEqual([]);
    expect(paused).toMatchObject({ title: 'Air-conditioning service' });
    expect(paused?.clockedSeconds).toBe(53 * 60);

    const waiting = board.tickets.flatMap(({ holds }) => holds.filter(({ kind }) => kind === 'parts'));
    expect(waiting).toHaveLength(1);
    expect(Date.parse(waiting[0]?.until ?? '')).toBeGreaterThan(now.getTime());

    const startable = board.tickets.filter((t) => t.canStart && t.assignment === null);
    expect(startable.map(({ title }) => title).sort()).toEqual([
      'Auxiliary belt',
      'Rear silencer',
      'Starter battery',
    ]);
    expect(board.tickets.some(({ unsafe }) => unsafe)).toBe(true);
    expect(board.technicians).toHaveLength(4);
  });

  it('plans later today in several bays, and tomorrow by the clock on the wall', async () => {
    const { day, tickets } = await get<Board>('/board');
    const now = shop.clock.now().getTime();
    const tomorrow = DateTime.fromISO(day, { zone: ZONE }).plus({ days: 1 }).toISODate();
    const planned = tickets.flatMap(({ state, assignment }) =>
      state === 'released' && assignment ? [assignment] : [],
    );
    const local = (instant: string): DateTime => DateTime.fromISO(instant, { zone: ZONE });
    const soon = planned.filter(({ startsAt }) => Date.parse(startsAt) < now + 4 * 3_600_000);
    const later = planned.filter((place) => !soon.includes(place));
    expect(new Set(soon.map(({ bayId }) => bayId)).size).toBe(3);
    expect(new Set(later.map(({ bayId }) => bayId)).size).toBe(4);
    expect(later.map(({ startsAt }) => local(startsAt).toISODate())).toEqual(later.map(() => tomorrow));
    expect(later.map(({ startsAt }) => local(startsAt).toFormat('HH:mm')).sort()).toEqual([
      '08:00',
      '08:30',
      '09:30',
      '10:30',
    ]);
    for (const { startsAt } of planned) expect(Date.parse(startsAt) % (15 * 60_000)).toBe(0);
  });

  it('has one piece of work that was finished and checked within the last hours', async () => {
    const { items } = await get<{ items: { title: string; clockedSeconds: number }[] }>(
      '/work-orders?state=checked',
    );
    expect(items).toMatchObject([{ title: 'Rear shock absorbers', clockedSeconds: 75 * 60 }]);
  });

  it('has cars at every stage before they are picked up', async () => {
    const { items } = await get<{ items: { stage: string }[] }>('/repair-orders?limit=50');
    const count = (stage: string): number => items.filter((one) => one.stage === stage).length;
    expect(items).toHaveLength(10);
    expect({
      in: count('dropped-off'),
      inspecting: count('inspecting'),
      waiting: count('awaiting-decision'),
      floor: count('on-the-floor'),
      ready: count('ready'),
    }).toEqual({ in: 1, inspecting: 1, waiting: 1, floor: 6, ready: 1 });
  });

  it('leaves the people who sign in free to clock on', async () => {
    const bram = await shop.signIn('bram@kestrelyard.example', 'technician-demo');
    const { tickets } = await get<{ tickets: { workOrderId: string; title: string }[] }>('/board');
    const belt = tickets.find(({ title }) => title === 'Auxiliary belt');
    await bram.post('/clock/on', { workOrderId: belt?.workOrderId }).expect(201);
  });
});
