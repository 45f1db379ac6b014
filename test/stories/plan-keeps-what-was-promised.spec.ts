import { at, Yard } from '../builders/yard.js';

const caller = { customerName: 'Ines Halloway', phone: '+1 202 555 0111', vehicleWords: 'a grey Corvane' };
const work = [{ title: 'Brakes', hundredths: 200, needsLift: true }];

interface Kept {
  readonly id: string;
  readonly number: number;
  readonly state: string;
  readonly promisedAt: string | null;
  readonly work: readonly {
    readonly isKept: boolean;
    readonly bayId: string;
    readonly technicianId: string;
    readonly startsAt: string;
    readonly endsAt: string;
  }[];
}

describe('the plan, made anew by itself, and what was reserved on the phone', () => {
  let yard: Yard;
  beforeEach(async () => {
    yard = await Yard.open('apply', { bays: 1 });
  }, 60_000);
  afterEach(async () => {
    await yard.shop.stop();
  });

  const hold = async (brought: string): Promise<Kept> => {
    const desk = yard.shop.frontDesk;
    const question = { weightKg: 1500, work };
    const { body } = await desk.post('/plan/offers', { ...question, brought: [{ at: brought }] }).expect(200);
    const [offer] = body.offers;
    const places = offer.places.map((place: Record<string, unknown>) => ({
      ...{ work: place['work'], bayId: place['bayId'], technicianId: place['technicianId'] },
      ...{ startsAt: place['startsAt'], endsAt: place['endsAt'] },
    }));
    const made = await desk
      .post('/reservations', { ...question, arrivesAt: offer.arrivesAt, places })
      .expect(201);
    return made.body as Kept;
  };
  const take = async (brought: string): Promise<Kept> => {
    const { id } = await hold(brought);
    return (await yard.shop.frontDesk.post(`/reservations/${id}/take`, caller).expect(200)).body as Kept;
  };
  const now = async ({ id }: Kept): Promise<Kept> =>
    (await yard.shop.frontDesk.get(`/reservations/${id}`).expect(200)).body as Kept;

  it('plans around what is held, and gives its place to others when the time is over', async () => {
    const held = await hold(at('08:30'));
    expect(held.work[0]).toMatchObject({ startsAt: at('08:30'), endsAt: at('10:30') });
    const urgent = await yard.work(200, at('10:00'));
    await yard.settles();
    expect((await now(held)).work[0]).toMatchObject({ isKept: true, startsAt: at('08:30') });
    expect(Date.parse((await yard.placeOf(urgent)).startsAt)).toBeGreaterThanOrEqual(Date.parse(at('10:30')));
    yard.shop.clock.passMinutes(16);
    // Something happens; nobody has ended the reservation before.
    const other = await yard.work(100);
    await yard.settles();
    expect(await now(held)).toMatchObject({ state: 'expired', work: [{ isKept: false }] });
    expect(Date.parse((await yard.placeOf(urgent)).startsAt)).toBeLessThan(Date.parse(at('08:30')));
    await yard.placeOf(other);
  }, 60_000);

  it('moves what was taken only between its arrival and its promise', async () => {
    const taken = await take(at('13:00', '2026-03-12'));
    const [place] = taken.work;
    const person = place?.technicianId === yard.bram ? yard.shop.technician : yard.shop.secondTechnician;
    const other = place?.technicianId === yard.bram ? yard.saffi : yard.bram;
    await yard.shop.manager
      .post(`/technicians/${person.staffId}/absences`, {
        reason: 'ill',
        ...{ startsAt: at('07:00', '2026-03-12'), endsAt: at('18:00', '2026-03-12') },
      })
      .expect(201);
    await yard.settles();
    const after = await now(taken);
    expect(after.work[0]).toMatchObject({ isKept: true, technicianId: other });
    expect(Date.parse(after.work[0]?.startsAt ?? '')).toBeGreaterThanOrEqual(
      Date.parse(at('13:00', '2026-03-12')),
    );
    expect(Date.parse(after.work[0]?.endsAt ?? '')).toBeLessThanOrEqual(Date.parse(taken.promisedAt ?? ''));
    const run = await yard.lastRun();
    expect(run.changes).toMatchObject([
      { workOrderId: null, title: `Brakes (reservation ${taken.number})`, technicianChanged: true },
    ]);
  }, 60_000);

  it('keeps a promise on the phone however late others are', async () => {
    const taken = await take(at('09:00'));
    const late = await yard.work(400, at('08:30'));
    await yard.settles();
    expect(Date.parse((await now(taken)).work[0]?.endsAt ?? '')).toBeLessThanOrEqual(
      Date.parse(taken.promisedAt ?? ''),
    );
    await yard.placeOf(late);
  }, 60_000);

  it('lets the real work take over the place in one run', async () => {
    const taken = await take(at('10:00'));
    const repairOrderId = await yard.floor.repairOrder({ promisedAt: taken.promisedAt ?? '' });
    await yard.shop.frontDesk.post(`/reservations/${taken.id}/use`, { repairOrderId }).expect(200);
    await yard.settles();
    // The car is here and its work not released: the place is still kept for it.
    expect(await now(taken)).toMatchObject({ state: 'taken', work: [{ isKept: true }] });
    const real = await yard.floor.work({ hundredths: 200, needsLift: true }, repairOrderId);
    await yard.settles();
    expect(await now(taken)).toMatchObject({ state: 'used', work: [{ isKept: false }] });
    expect(Date.parse((await yard.placeOf(real)).endsAt)).toBeLessThanOrEqual(
      Date.parse(taken.promisedAt ?? ''),
    );
    const live = await yard.shop.sql(
      'select id from assignments where cancelled_at is null and reservation_operation_id is not null',
    );
    expect(live).toEqual([]);
  }, 60_000);

  it('gives work that lost its place another one as soon as there is one', async () => {
    const taken = await take(at('10:00'));
    const [bayId] = yard.bays;
    const closed = await yard.shop.manager
      .post(`/bays/${bayId ?? ''}/closures`, { reason: 'cable worn' })
      .expect(201);
    await yard.settles();
    expect(await now(taken)).toMatchObject({ state: 'taken', work: [{ isKept: false }] });
    await yard.shop.manager
      .patch(`/bays/${bayId ?? ''}/closures/${closed.body.id as string}`, { isBackInService: true }, '*')
      .expect(200);
    await yard.settles();
    expect(await now(taken)).toMatchObject({ state: 'taken', work: [{ isKept: true, bayId }] });
  }, 60_000);
});
