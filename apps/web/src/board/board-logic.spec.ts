import fc from 'fast-check';
import type { Board, Ticket } from '../api/types.js';
import { actsFor } from './acts.js';
import { QUARTER, axisOf, isOnDay, percent } from './axis.js';
import { inTheWay } from './in-the-way.js';
import {
  belongsInTray,
  bookHours,
  clockedSeconds,
  isUnderWayWithoutBay,
  kilograms,
  lookOf,
  tenthsUp,
} from './look.js';
import { withMoves } from './moves.js';
import { instantAt, nudge, placeAt } from './placing.js';
import { printOf, tailEnds, stateWord } from './print.js';
import { inShopTime } from './zone-time.js';

const at = (time: string): string => `2031-03-12T${time}:00.000Z`;
const ms = (time: string): number => Date.parse(at(time));

const assignment: NonNullable<Ticket['assignment']> = {
  id: 'a1',
  version: 1,
  bayId: 'b1',
  technicianId: 't1',
  technicianName: 'Bram Tollan',
  startsAt: at('09:00'),
  endsAt: at('10:30'),
};
const ticket = (more: Partial<Ticket> = {}): Ticket => ({
  workOrderId: 'w1',
  workOrderNumber: 2481,
  repairOrderId: 'r1',
  repairOrderNumber: 1100,
  title: 'Front pads and discs',
  vehicle: { label: 'Corvane Talis', plate: null },
  bookHundredths: 150,
  clockedSeconds: 0,
  state: 'released',
  holds: [],
  canStart: true,
  claim: null,
  assignment,
  unsafe: false,
  cautions: [],
  promisedAt: null,
  ...more,
});
const board = (tickets: Ticket[]): Board => ({
  day: '2031-03-12',
  timeZone: 'UTC',
  now: at('10:00'),
  dayStartsAt: at('07:30'),
  dayEndsAt: at('17:30'),
  lastEventId: '0',
  bays: [],
  technicians: [],
  tickets,
  reserved: [],
  closures: [],
});
const context = {
  ...{ zone: 'UTC', day: '2031-03-12', sinceBoard: 0, now: ms('12:00') },
  bays: new Map(),
};
const claimOf = (technicianId: string): Ticket['claim'] => ({
  technicianId,
  displayName: 'X',
  claimedAt: at('08:00'),
});

describe('the steel rule', () => {
  it('runs through the day of the shop, and further where work lies outside it', () => {
    const early = ticket({
      assignment: { ...assignment, startsAt: at('06:50'), endsAt: at('18:10') },
    });
    expect(axisOf(board([]))).toMatchObject({ from: ms('07:30'), to: ms('17:30'), hours: 10 });
    expect(axisOf(board([early]))).toMatchObject({ from: ms('06:30'), to: ms('18:30') });
    expect(axisOf(board([]), [ms('19:15')])).toMatchObject({ to: ms('19:30') });
  });

  it('has a tick for each quarter hour and a figure for each full hour of the shop’s own zone', () => {
    const ticks = axisOf({ ...board([]), timeZone: 'Asia/Kolkata' }).ticks;
    expect(ticks).toHaveLength(41);
    expect(ticks.filter((tick) => tick.size === 'hour')).toHaveLength(11);
    // 07:30 UTC is 13:00 in Kolkata (UTC + 5:30, no summer time).
    expect(ticks[0]).toMatchObject({ size: 'hour', label: '13' });
  });

  it('finds the same instant under a point that it drew the instant at', () => {
    const axis = axisOf(board([]));
    fc.assert(
      fc.property(fc.integer({ min: axis.from, max: axis.to }), (instant) => {
        expect(Math.abs(instantAt(axis, percent(axis, instant) / 100) - instant)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('never lets a ticket be put down off the quarter hours or off the rule', () => {
    const axis = axisOf(board([]));
    const keys = fc.constantFrom('ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown');
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 600 }),
        fc.integer(),
        fc.array(keys),
        (minutes, start, presses) => {
          let place = placeAt(axis, 'b2', axis.from + start, minutes * 60_000);
          for (const key of presses) place = nudge(axis, ['b1', 'b2', 'b3'], place, key) ?? place;
          expect(place.startsAt % QUARTER).toBe(0);
          expect(place.startsAt).toBeGreaterThanOrEqual(axis.from);
          expect(place.endsAt).toBeLessThanOrEqual(Math.max(axis.to, axis.from + minutes * 60_000));
          expect(place.endsAt - place.startsAt).toBe(minutes * 60_000);
          expect(['b1', 'b2', 'b3']).toContain(place.bayId);
        },
      ),
    );
    expect(nudge(axis, ['b1'], placeAt(axis, 'b1', axis.from, QUARTER), 'Tab')).toBeNull();
  });
});

describe('what a ticket looks like', () => {
  it.each([
    [{ state: 'released' as const }, 'planned'],
    [{ state: 'released' as const, holds: [{ kind: 'parts' as const, detail: 'x' }] }, 'held'],
    [{ state: 'on-the-clock' as const, clockedSeconds: 5400 }, 'clocked'],
    [{ state: 'on-the-clock' as const, clockedSeconds: 5401 }, 'past-book'],
    [{ state: 'paused' as const, holds: [{ kind: 'parts' as const, detail: 'x' }] }, 'paused'],
    [{ state: 'finished' as const, clockedSeconds: 9000 }, 'done'],
  ])('%j is %s (1.5 h of book are 5400 s)', (more, look) => {
    const shown = ticket(more);
    expect(lookOf(shown, clockedSeconds(shown, 0))).toBe(look);
  });

  it('lets only a running clock run on between two readings of the board', () => {
    expect(clockedSeconds(ticket({ state: 'on-the-clock', clockedSeconds: 60 }), 30_500)).toBe(90);
    expect(clockedSeconds(ticket({ state: 'paused', clockedSeconds: 60 }), 30_500)).toBe(60);
  });

  it('lets the overrun stick out by what is clocked past the ticket, and writes what is past book', () => {
    const print = printOf(ticket({ state: 'on-the-clock', clockedSeconds: 8100 }), context);
    expect(print).toMatchObject({ clocked: 1, tail: 0.5, past: '+0.8 h' });
    const longPlan = ticket({
      state: 'on-the-clock',
      clockedSeconds: 8100,
      assignment: { ...assignment, endsAt: at('12:00') },
    });
    expect(printOf(longPlan, context)).toMatchObject({ clocked: 0.75, tail: 0, past: '+0.8 h' });
  });

  it('draws no overrun past the present, where the place was stretched or begun anew for what is left', () => {
    const anew = ticket({
      ...{ state: 'on-the-clock', clockedSeconds: 3 * 3600 },
      assignment: { ...assignment, startsAt: at('11:30'), endsAt: at('12:30') },
    });
    expect(printOf(anew, context)).toMatchObject({ clocked: 1, tail: 0, past: '+1.5 h' });
    expect(printOf(anew, { ...context, now: ms('13:00') }).tail).toBe(0.5);
    const late = { ...board([anew]), now: at('12:00') };
    expect([tailEnds(late, 0), tailEnds({ ...late, now: at('12:50') }, 0)]).toEqual([[], [ms('13:00')]]);
  });

  it('writes hours and weights as the trade does, and never rounds an overrun down to nothing', () => {
    expect([150, 25, 300, 5].map(bookHours)).toEqual(['1.5', '0.25', '3.0', '0.05']);
    expect(tenthsUp(1)).toBe('0.1');
    expect([900, 3500, 12_000].map(kilograms)).toEqual([
      '900\u00a0kg',
      '3\u202f500\u00a0kg',
      '12\u202f000\u00a0kg',
    ]);
  });

  it('says instants in the server’s sentences as the shop would', () => {
    const text = 'Free at 2031-03-12T15:00:00.000Z, else 2031-03-14T07:30:00Z.';
    expect(inShopTime(text, 'Europe/Vienna', '2031-03-12')).toBe(
      'Free at 16:00, else Friday 14 March, 08:30.',
    );
  });

  it('says times that the server wrote by the shop’s wall in the same way', () => {
    const text = 'Held since 2031-03-12 09:56, expected 2031-03-13 10:00.';
    expect(inShopTime(text, 'Asia/Kolkata', '2031-03-12')).toBe(
      'Held since 09:56, expected Thursday 13 March, 10:00.',
    );
  });
});

describe('the day that is shown', () => {
  const placed = (startsAt: string, endsAt: string, more: Partial<Ticket> = {}): Ticket =>
    ticket({ assignment: { ...assignment, startsAt, endsAt }, ...more });
  const tomorrow = placed('2031-03-13T08:00:00.000Z', '2031-03-13T10:00:00.000Z');
  const overnight = placed('2031-03-11T22:00:00.000Z', '2031-03-12T00:00:00.000Z');

  it('has what lies on it, to the minute of midnight, and what has been on the clock since before', () => {
    expect(isOnDay(ticket(), board([]))).toBe(true);
    expect(isOnDay(tomorrow, board([]))).toBe(false);
    expect(isOnDay(overnight, board([]))).toBe(false);
    expect(isOnDay({ ...overnight, state: 'on-the-clock' }, board([]))).toBe(true);
    expect(isOnDay(ticket({ assignment: null }), board([]))).toBe(false);
  });

  it('makes its rule no longer for the places of other days', () => {
    expect(axisOf(board([ticket(), tomorrow]))).toMatchObject({ from: ms('07:30'), to: ms('17:30') });
  });

  it('makes its rule no longer for the night over which work goes on, and shows an hour of it at least', () => {
    const overTwoDays = placed('2031-03-12T15:00:00.000Z', '2031-03-13T09:00:00.000Z');
    expect(axisOf(board([overTwoDays]))).toMatchObject({ from: ms('07:30'), to: ms('17:30') });
    const nextDay = {
      day: '2031-03-13',
      dayStartsAt: '2031-03-13T07:30:00Z',
      dayEndsAt: '2031-03-13T17:30:00Z',
    };
    expect(axisOf({ ...board([overTwoDays]), ...nextDay }).hours).toBe(10);
    const late = placed('2031-03-12T18:00:00.000Z', '2031-03-14T09:00:00.000Z');
    expect(axisOf(board([late]))).toMatchObject({ from: ms('07:30'), to: ms('19:00') });
  });

  it('finds what was paused on another day among what can start', () => {
    expect(belongsInTray({ ...overnight, state: 'paused' }, board([]))).toBe(true);
    expect(belongsInTray(ticket({ state: 'paused' }), board([]))).toBe(false);
    expect(isUnderWayWithoutBay(ticket({ assignment: null, state: 'on-the-clock' }))).toBe(true);
    expect(isUnderWayWithoutBay(ticket({ state: 'on-the-clock' }))).toBe(false);
  });

  it('calls planned only what has its place', () => {
    expect(stateWord(ticket(), 'planned')).toBe('Planned');
    expect(stateWord(ticket({ assignment: null }), 'planned')).toBe('Released');
    expect(stateWord(ticket({ claim: claimOf('t1') }), 'planned')).toBe('Claimed');
  });
});

describe('what is in the way', () => {
  const other = (more: Partial<NonNullable<Ticket['assignment']>>): Ticket =>
    ticket({ workOrderId: 'w2', assignment: { ...assignment, id: 'a2', ...more } });
  const place = { bayId: 'b1', startsAt: ms('10:00'), endsAt: ms('11:00') };

  it('is another ticket of the bay or of the technician at the time, and not one that ends as this begins', () => {
    const moving = ticket();
    expect(inTheWay([moving, other({ technicianId: 't2' })], moving, place)?.workOrderId).toBe('w2');
    expect(inTheWay([moving, other({ bayId: 'b2' })], moving, place)?.workOrderId).toBe('w2');
    expect(inTheWay([moving, other({ bayId: 'b2', technicianId: 't2' })], moving, place)).toBeUndefined();
    expect(inTheWay([moving, other({ endsAt: at('10:00') })], moving, place)).toBeUndefined();
    expect(inTheWay([moving], moving, place)).toBeUndefined();
  });

  it('shows a move at once on the board, and only that one', () => {
    const before = board([ticket(), other({})]);
    const after = withMoves(before, new Map([['w1', place]]));
    expect(after.tickets[0]?.assignment).toMatchObject({
      startsAt: at('10:00'),
      endsAt: at('11:00'),
      version: 1,
    });
    expect(after.tickets[1]).toBe(before.tickets[1]);
    expect(withMoves(before, new Map())).toBe(before);
  });
});

describe('who may do what with a ticket', () => {
  const technician = { id: 't1', roles: ['technician'] };
  const manager = { id: 'm1', roles: ['manager'] };
  const desk = { id: 'd1', roles: ['front-desk'] };

  it('offers a technician the next step and nothing of the plan', () => {
    const mine = { claim: claimOf('t1') };
    expect(actsFor(ticket(), technician)).toEqual(['claim', 'clock-on']);
    expect(actsFor(ticket({ ...mine, state: 'claimed' }), technician)).toEqual(['clock-on', 'release']);
    expect(actsFor(ticket({ ...mine, state: 'on-the-clock', clockedSeconds: 0 }), technician)).toEqual([
      'pause',
      'clock-off',
      'finish',
    ]);
    expect(actsFor(ticket({ claim: claimOf('t2'), state: 'claimed' }), technician)).toEqual([]);
  });

  it('offers nobody to start what is held', () => {
    const held = { holds: [{ kind: 'parts' as const, detail: 'x' }], canStart: false };
    expect(actsFor(ticket(held), technician)).toEqual([]);
    expect(actsFor(ticket({ ...held, claim: claimOf('t1'), state: 'claimed' }), technician)).toEqual([
      'release',
    ]);
  });

  it('lets desk and manager plan what is not running, and only a manager release another’s claim', () => {
    expect(actsFor(ticket({ assignment: null }), desk)).toEqual(['assign']);
    expect(actsFor(ticket({ claim: claimOf('t1'), state: 'claimed' }), desk)).toEqual([
      'change-assignment',
      'cancel-assignment',
    ]);
    expect(actsFor(ticket({ claim: claimOf('t1'), state: 'claimed' }), manager)).toContain('release');
    expect(actsFor(ticket({ claim: claimOf('t1'), state: 'on-the-clock' }), manager)).toEqual([]);
    expect(actsFor(ticket({ state: 'checked' }), manager)).toEqual([]);
  });
});
