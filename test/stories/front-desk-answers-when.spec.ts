import { FloorBuilder, type MadeWork } from '../builders/floor.js';
import { newId } from '#server/platform/ids';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

// 11 March 2026 is a Wednesday; New York is at UTC-4 since the Sunday before.
const at = (time: string, day = '2026-03-11'): string => `${day}T${time}:00-04:00`;
const utc = (time: string, day?: string): string => new Date(at(time, day)).toISOString();
const THURSDAY = '2026-03-12';

interface Place {
  work: number;
  bayId: string;
  technicianId: string;
  startsAt: string;
  endsAt: string;
}
interface Offer {
  offerKey: string;
  arrivesAt: string;
  startsAt: string;
  bayId: string;
  bayName: string;
  readyAt: string;
  readyP80At: string;
  places: (Place & { technicianName: string })[];
  moves: { kind: string; id: string; number: number; why: string }[];
  latenessAddedMinutes: number;
  words: string;
}

describe('the front desk answers "when?" on the phone', () => {
  let shop: ShopUnderTest;
  let shopId: string;
  let desk: Person;
  let manager: Person;
  let technician: Person;
  let floor: FloorBuilder;
  let bram: string;
  let saffi: string;
  let lift: string;
  let made = 0;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: at('09:00') });
  }, 60_000);
  afterAll(async () => {
    await shop.stop();
  });
  // A shop of its own for each story.
  beforeEach(async () => {
    shop.clock.set(new Date(at('09:00')));
    const own = await shop.addShop(`yard-${(made += 1)}`);
    shopId = own.shopId;
    [desk, manager] = [await own.person('front-desk', 'Wenna'), await own.person('manager', 'Orla')];
    technician = await own.person('technician', 'Bram');
    bram = technician.staffId;
    saffi = (await own.person('technician', 'Saffi')).staffId;
    floor = new FloorBuilder(shop, shopId);
    for (const weekday of [1, 2, 3, 4, 5])
      for (const who of [bram, saffi])
        await floor.shift(who, weekday, 8 * 60, 17 * 60, [12 * 60, 12 * 60 + 30]);
    lift = await floor.bay({ capacityKg: 2500 });
  }, 60_000);

  const brakes = { title: 'Brakes at the front', hundredths: 200, needsLift: true };
  const asked = { weightKg: 1500, work: [brakes] };
  const local = (instant: string): string =>
    new Date(instant).toLocaleTimeString('en-GB', {
      timeZone: 'America/New_York',
      hour: '2-digit',
      minute: '2-digit',
    });
  const ask = async (more: object = {}): Promise<Offer[]> =>
    (await desk.post('/plan/offers', { ...asked, ...more }).expect(200)).body.offers as Offer[];
  const chosen = (offer: Offer, question: object = asked) => ({
    ...question,
    arrivesAt: offer.arrivesAt,
    places: offer.places.map(({ work, bayId, technicianId, startsAt, endsAt }) => ({
      ...{ work, bayId, technicianId, startsAt, endsAt },
    })),
    ...(offer.moves.length > 0 ? { moves: offer.moves.map(({ id }) => id) } : {}),
  });
  const book = (work: MadeWork, from: string, to: string, more: object = {}) =>
    desk
      .post('/assignments', {
        ...{ workOrderId: work.workOrderId, bayId: lift, technicianId: bram },
        ...{ startsAt: from, endsAt: to, ...more },
      })
      .expect(201);
  const caller = {
    customerName: 'Ines Halloway',
    phone: '+1 202 555 0111',
    vehicleWords: 'a grey Corvane estate',
  };
  const first = (offers: readonly Offer[]): Offer => {
    const [offer] = offers;
    if (offer === undefined) throw new Error('there is an offer');
    return offer;
  };

  it('offers what lies between the plan, today and the next mornings, in words, and changes nothing', async () => {
    await book(await floor.work({ needsLift: true }), at('09:00'), at('11:00'));
    const before = await shop.sql('select * from assignments where shop_id = $1', [shopId]);
    const events = await shop.sql('select id from live_events where shop_id = $1', [shopId]);
    const answer = await desk.post('/plan/offers', asked).expect(200);
    expect(answer.body).toMatchObject({ timeZone: 'America/New_York', askedAt: utc('09:00'), noPlace: null });
    const offers = answer.body.offers as Offer[];
    // The lift is free at eleven; two hours of work with the break from twelve to half past end at half past one.
    expect(first(offers)).toMatchObject({
      ...{ arrivesAt: utc('09:00'), startsAt: utc('11:00'), readyAt: utc('13:30'), bayId: lift },
      ...{ moves: [], latenessAddedMinutes: 0 },
    });
    expect(first(offers).words).toBe(
      `Bring it Wed 09:00 → ${first(offers).bayName} at 11:00, ready about 13:30, in four of five cases by ` +
        `${local(first(offers).readyP80At)}; nothing moves.`,
    );
    expect(Date.parse(first(offers).readyP80At)).toBeGreaterThan(Date.parse(first(offers).readyAt));
    expect(offers.map(({ arrivesAt }) => arrivesAt)).toEqual([
      ...[utc('09:00'), utc('07:00', THURSDAY), utc('07:00', '2026-03-13'), utc('07:00', '2026-03-16')],
    ]);
    expect(offers[1]).toMatchObject({ startsAt: utc('08:00', THURSDAY), readyAt: utc('10:00', THURSDAY) });
    expect(offers[3]?.words).toContain('Bring it Mon 07:00');
    expect(await shop.sql('select * from assignments where shop_id = $1', [shopId])).toEqual(before);
    expect(await shop.sql('select id from reservations where shop_id = $1', [shopId])).toEqual([]);
    expect(await shop.sql('select id from live_events where shop_id = $1', [shopId])).toEqual(events);
  });

  it('knows the catalogue: hours by the steps, the skill, the bay, the place on the vehicle', async () => {
    const [step, operation] = [newId(), newId()];
    await shop.sql(
      `insert into steps (shop_id, id, code, name, hundredths, version) values ($1, $2, 'PADS', 'Pads off and on', 75, 1)`,
      [shopId, step],
    );
    await shop.sql(
      `insert into operations (shop_id, id, code, name, needs_lift, bay_kinds, skills, cautions, is_active, version)
       values ($1, $2, 'FRONT-PADS', 'Brake pads', true, array['lift'], array['brakes'], array[]::text[], true, 1)`,
      [shopId, operation],
    );
    await shop.sql(
      `insert into operation_steps (shop_id, operation_id, step_id, at, sequence) values ($1, $2, $3, 'axle', 1)`,
      [shopId, operation, step],
    );
    const work = [{ operationId: operation, positions: ['front'] }];
    const nobody = await desk.post('/plan/offers', { weightKg: 1500, work }).expect(200);
    expect(nobody.body).toMatchObject({ offers: [], noPlace: { reason: 'nobody-qualified' } });
    expect(nobody.body.noPlace.detail).toBe('Nobody here holds brakes for "Brake pads" at that time.');
    await floor.skill(saffi, 'brakes');
    const [one] = await ask({ work });
    expect(one?.places).toMatchObject([
      { technicianName: 'Saffi', title: 'Brake pads', endsAt: utc('09:45') },
    ]);
    const [both] = await ask({ work: [{ operationId: operation }] });
    expect(both?.readyAt).toBe(utc('10:30'));
    const nowhere = await desk
      .post('/plan/offers', { weightKg: 1500, work: [{ operationId: operation, positions: ['engine'] }] })
      .expect(422);
    expect(nowhere.body).toMatchObject({
      ...{ code: 'position-not-possible', fields: [{ pointer: '/work/0/positions' }] },
    });
  });

  it('does one thing after the other where that is asked, and never two on one car at once', async () => {
    const wheels = { title: 'Wheels', hundredths: 50, needsLift: true, isAfterPrevious: true };
    const offer = first(await ask({ work: [brakes, wheels] }));
    const [a, b] = [0, 1].map((work) => offer.places.find((place) => place.work === work));
    expect(Date.parse(b?.startsAt ?? '')).toBeGreaterThanOrEqual(Date.parse(a?.endsAt ?? ''));
    expect(offer.readyAt).toBe(utc('11:30'));
  });

  it('says why there is no place, and what could be done', async () => {
    const noPlace = async (more: object) =>
      (await desk.post('/plan/offers', { ...asked, ...more }).expect(200)).body;
    expect(await noPlace({ weightKg: 3200 })).toMatchObject({
      offers: [],
      noPlace: {
        reason: 'lift-too-weak',
        detail:
          'The vehicle weighs 3200 kg; the strongest lift for "Brakes at the front" is rated for 2500 kg.',
      },
    });
    expect((await noPlace({ weightKg: undefined })).noPlace).toMatchObject({ reason: 'weight-unknown' });
    const long = { work: [{ ...brakes, hundredths: 8000 }], brought: [{ day: '2026-03-23' }] };
    expect((await noPlace(long)).noPlace.reason).toBe('no-room');
    await shop.sql('delete from shift_patterns where shop_id = $1', [shopId]);
    expect((await noPlace({})).noPlace).toMatchObject({ reason: 'nobody-works' });
  });

  it('names each field that cannot be meant', async () => {
    const refused = async (body: object) => (await desk.post('/plan/offers', body).expect(422)).body;
    const fields = async (body: object) =>
      (await refused(body)).fields.map(({ pointer }: { pointer: string }) => pointer);
    expect(await fields({ ...asked, work: [] })).toEqual(['/work']);
    expect(await fields({ ...asked, work: [{}] })).toEqual(['/work/0/title']);
    expect(await fields({ ...asked, work: [{ title: 'Noise' }] })).toEqual(['/work/0/hundredths']);
    expect(await fields({ ...asked, work: [{ ...brakes, hundredths: 1.5 }] })).toEqual([
      '/work/0/hundredths',
    ]);
    expect(await fields({ ...asked, weightKg: 50 })).toEqual(['/weightKg']);
    expect(await fields({ ...asked, brought: [{}] })).toEqual(['/brought/0']);
    expect(await fields({ ...asked, brought: [{ at: at('08:00', '2026-03-10') }] })).toEqual(['/brought/0']);
    expect(await fields({ ...asked, brought: [{ day: '2026-06-01' }] })).toEqual(['/brought/0']);
    expect(await fields({ ...asked, brought: [{ day: '2026-02-31' }] })).toEqual(['/brought/0/day']);
    const unknown = await desk.post('/plan/offers', { ...asked, vehicleId: newId() }).expect(404);
    expect(unknown.body.code).toBe('not-found');
    await technician.post('/plan/offers', asked).expect(403);
    await technician.get('/reservations').expect(403);
    await manager.post('/plan/offers', asked).expect(200);
  });

  it('holds a place for the phone call, for everybody to see, and tells the next who has it', async () => {
    const offer = first(await ask({ brought: [{ at: at('10:00') }] }));
    expect(offer).toMatchObject({ arrivesAt: utc('10:00'), startsAt: utc('10:00'), readyAt: utc('12:00') });
    const held = (await desk.post('/reservations', chosen(offer)).expect(201)).body;
    expect(held).toMatchObject({
      ...{ number: 1, state: 'held', madeByName: 'Wenna', expiresAt: utc('09:15'), promisedAt: null },
      ...{ arrivesAt: utc('10:00'), readyAt: offer.readyAt, readyP80At: offer.readyP80At },
      words: 'Reserved until 09:15 by Wenna.',
      work: [{ title: 'Brakes at the front', isKept: true, bayId: lift, startsAt: utc('10:00') }],
    });
    const again = await manager.post('/reservations', chosen(offer)).expect(409);
    expect(again.body).toMatchObject({
      code: 'bay-taken',
      holder: { workOrderNumber: null, reservation: { number: 1, by: 'Wenna' } },
    });
    expect(again.body.detail).toMatch(/is reserved until 09:15 by Wenna\. Ask again/);
    const other = first(await ask({ brought: [{ at: at('10:00') }] }));
    expect(other.startsAt).toBe(utc('12:00') === other.startsAt ? other.startsAt : utc('12:30'));
    const work = await floor.work({ needsLift: true });
    const byHand = await desk
      .post('/assignments', {
        ...{ workOrderId: work.workOrderId, bayId: lift, technicianId: saffi },
        ...{ startsAt: at('11:00'), endsAt: at('12:00') },
      })
      .expect(409);
    expect(byHand.body.detail).toMatch(/is reserved until 09:15 by Wenna/);
    const board = (await technician.get('/board').expect(200)).body;
    expect(board.reserved).toMatchObject([
      {
        ...{ reservationId: held.id, bayId: lift, startsAt: utc('10:00'), endsAt: utc('12:00') },
        words: 'Reserved until 09:15 by Wenna: Brakes at the front',
      },
    ]);
  });

  it('is extended once, given back, or runs out, and its place is free again at once', async () => {
    const offer = first(await ask());
    const held = (await desk.post('/reservations', chosen(offer)).expect(201)).body;
    shop.clock.passMinutes(10);
    const longer = await desk.patch(`/reservations/${held.id}`, {}, held.version).expect(200);
    expect(longer.body).toMatchObject({ expiresAt: utc('09:25'), isExtended: true });
    const twice = await desk.patch(`/reservations/${held.id}`, {}, longer.body.version).expect(409);
    expect(twice.body.code).toBe('reservation-state');
    await desk
      .delete(`/reservations/${held.id}`, undefined, { 'if-match': `"${longer.body.version}"` })
      .expect(204);
    const gone = (await desk.get(`/reservations/${held.id}`).expect(200)).body;
    expect(gone).toMatchObject({ state: 'given-back', work: [{ isKept: false }] });
    const next = first(await ask());
    const second = (await desk.post('/reservations', chosen(next)).expect(201)).body;
    shop.clock.passMinutes(15);
    expect((await desk.get('/reservations').expect(200)).body.items).toEqual([]);
    const late = await desk.post(`/reservations/${second.id}/take`, caller).expect(409);
    expect(late.body).toMatchObject({ code: 'reservation-over', state: 'expired' });
    // Nobody has ended it: whoever asks and whoever gives out places looks past it and ends it.
    const freed = first(await ask());
    expect(freed.startsAt).toBe(utc('09:25'));
    const third = (await manager.post('/reservations', chosen(freed)).expect(201)).body;
    expect(third.number).toBe(3);
    expect((await desk.get(`/reservations/${second.id}`)).body.state).toBe('expired');
    expect(
      await shop.sql(
        'select id from assignments where cancelled_at is null and starts_at = $1 and shop_id = $2',
        [utc('09:25'), shopId],
      ),
    ).toHaveLength(1);
  });

  it('a place by hand takes what ran out, too', async () => {
    const offer = first(await ask());
    await desk.post('/reservations', chosen(offer)).expect(201);
    shop.clock.passMinutes(16);
    await book(await floor.work({ needsLift: true }), at('09:30'), at('11:00'));
    const [ended] = await shop.sql('select release_reason from reservations where shop_id = $1', [shopId]);
    expect(ended).toEqual({ release_reason: 'expired' });
  });

  it('is taken with a name, a number and a vehicle, and stays with the time that was promised', async () => {
    const offer = first(await ask({ brought: [{ day: THURSDAY }] }));
    const held = (await desk.post('/reservations', { ...chosen(offer), note: 'Calls at noon' }).expect(201))
      .body;
    const nameless = await desk.post(`/reservations/${held.id}/take`, { phone: '555' }).expect(422);
    expect(nameless.body.fields.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      ...['/customerName', '/vehicleWords'],
    ]);
    const soon = await desk
      .post(`/reservations/${held.id}/take`, { ...caller, promisedAt: at('09:00', THURSDAY) })
      .expect(422);
    expect(soon.body.fields[0].pointer).toBe('/promisedAt');
    const taken = (await desk.post(`/reservations/${held.id}/take`, caller).expect(200)).body;
    expect(taken).toMatchObject({
      ...{ state: 'taken', customerName: 'Ines Halloway', note: 'Calls at noon', expiresAt: null },
      promisedAt: offer.readyP80At,
      words: `Kept for Ines Halloway: comes Thu 07:00, promised by Thu ${local(offer.readyP80At)}.`,
    });
    expect((await desk.post(`/reservations/${held.id}/take`, caller).expect(409)).body.code).toBe(
      'reservation-state',
    );
    shop.clock.passMinutes(60);
    const arriving = async () => (await desk.get('/reservations?list=arriving-today').expect(200)).body.items;
    expect(await arriving()).toEqual([]);
    shop.clock.set(new Date(at('07:10', THURSDAY)));
    expect(await arriving()).toMatchObject([{ id: held.id }]);
    expect((await desk.get('/board').expect(200)).body.reserved[0].words).toBe(
      'Kept for Ines Halloway, a grey Corvane estate: Brakes at the front',
    );
    // Midnight of its day passes: the car did not come.
    shop.clock.set(new Date(at('08:00', '2026-03-13')));
    expect((await desk.get('/reservations').expect(200)).body.items).toEqual([]);
    expect((await desk.get(`/reservations/${held.id}`)).body.state).toBe('not-come');
  });

  it('keeps the morning of a car that is left the evening before, and gives it up when that day is over', async () => {
    const offer = first(await ask({ brought: [{ at: at('17:30') }] }));
    expect(offer).toMatchObject({ arrivesAt: utc('17:30'), startsAt: utc('08:00', THURSDAY) });
    const held = (await desk.post('/reservations', chosen(offer)).expect(201)).body;
    expect(held.lapsesAt).toBeNull();
    const taken = (await desk.post(`/reservations/${held.id}/take`, caller).expect(200)).body;
    expect(taken.lapsesAt).toBe(utc('00:00', '2026-03-13'));
    shop.clock.set(new Date(at('07:30', THURSDAY)));
    expect((await desk.get('/reservations').expect(200)).body.items).toMatchObject([
      { id: held.id, state: 'taken', work: [{ isKept: true, startsAt: utc('08:00', THURSDAY) }] },
    ]);
    const stranger = await floor.work({ needsLift: true });
    const inTheWay = await desk
      .post('/assignments', {
        ...{ workOrderId: stranger.workOrderId, bayId: lift, technicianId: saffi },
        ...{ startsAt: at('08:00', THURSDAY), endsAt: at('09:00', THURSDAY) },
      })
      .expect(409);
    expect(inTheWay.body.code).toBe('bay-taken');
    shop.clock.set(new Date(at('00:01', '2026-03-13')));
    expect((await desk.get(`/reservations/${held.id}`)).body.state).toBe('not-come');
  });

  it('is used for the repair order that is opened for it, and its places give way to the real work', async () => {
    const offer = first(await ask({ brought: [{ at: at('10:00') }] }));
    const held = (await desk.post('/reservations', chosen(offer)).expect(201)).body;
    const repairOrderId = await floor.repairOrder();
    const early = await desk.post(`/reservations/${held.id}/use`, { repairOrderId }).expect(409);
    expect(early.body.code).toBe('reservation-state');
    await desk.post(`/reservations/${held.id}/take`, caller).expect(200);
    const used = (await desk.post(`/reservations/${held.id}/use`, { repairOrderId }).expect(200)).body;
    expect(used).toMatchObject({ state: 'taken', repairOrderId });
    const other = await desk
      .post(`/reservations/${held.id}/use`, { repairOrderId: await floor.repairOrder() })
      .expect(409);
    expect(other.body.code).toBe('reservation-state');
    const stranger = await floor.work({ needsLift: true });
    const taken = await desk
      .post('/assignments', {
        ...{ workOrderId: stranger.workOrderId, bayId: lift, technicianId: saffi },
        ...{ startsAt: at('10:30'), endsAt: at('11:00') },
      })
      .expect(409);
    expect(taken.body.detail).toMatch(/is kept for reservation 1 at that time, made by Wenna/);
    const work = await floor.work({ needsLift: true }, repairOrderId);
    // Its own work stands in nobody's way: the offer for others no longer sees the place.
    expect(first(await ask({ brought: [{ at: at('10:00') }] })).startsAt).toBe(utc('10:00'));
    await book(work, at('10:15'), at('12:00'));
    expect((await desk.get(`/reservations/${held.id}`)).body).toMatchObject({
      ...{ state: 'used', work: [{ isKept: false }] },
    });
  });

  it('checks the places of an offer afresh: too heavy, too short, outside the shift, past, or not one for each', async () => {
    const offer = first(await ask());
    const refused = async (over: object, status = 409) =>
      (await desk.post('/reservations', { ...chosen(offer), ...over }).expect(status)).body;
    const [place] = chosen(offer).places;
    expect((await refused({ weightKg: 2600 })).code).toBe('place-not-possible');
    expect((await refused({ weightKg: 2600 })).rules).toEqual(['vehicle-too-heavy']);
    expect((await refused({ places: [{ ...place, endsAt: at('10:00') }] })).rules).toEqual([
      'duration-wrong',
    ]);
    const night = { ...place, startsAt: at('19:00'), endsAt: at('21:00') };
    expect((await refused({ places: [night] })).rules).toContain('outside-shift');
    expect((await refused({ places: [{ ...place, bayId: newId() }] })).rules).toContain('bay-unknown');
    expect((await refused({ places: [{ ...place, technicianId: desk.staffId }] })).rules).toContain(
      'technician-unknown',
    );
    expect((await refused({ arrivesAt: at('16:00') })).rules).toContain('before-arrival');
    expect((await refused({ places: [] }, 422)).fields[0].pointer).toBe('/places');
    expect((await refused({ places: [place, place] }, 422)).fields[0].pointer).toBe('/places/1/work');
    expect((await refused({ places: [{ ...place, endsAt: place?.startsAt }] }, 422)).fields[0].pointer).toBe(
      '/places/0/endsAt',
    );
    shop.clock.passMinutes(30);
    expect((await refused({})).rules).toContain('before-now');
    expect(await shop.sql('select id from reservations where shop_id = $1', [shopId])).toEqual([]);
  });

  it('another shop sees none of it', async () => {
    const offer = first(await ask());
    const held = (await desk.post('/reservations', chosen(offer)).expect(201)).body;
    const other = await shop.addShop('next-door');
    const stranger = await other.person('front-desk');
    await stranger.get(`/reservations/${held.id}`).expect(404);
    await stranger.post(`/reservations/${held.id}/take`, caller).expect(404);
    expect((await stranger.get('/reservations').expect(200)).body.items).toEqual([]);
  });

  it('moves others only when it is taken, and tells why it cannot any more', async () => {
    const late = await floor.repairOrder({ promisedAt: at('17:00', '2026-03-13') });
    const work = await floor.work({ needsLift: true, hundredths: 200, title: 'Clutch' }, late);
    await book(work, at('13:00'), at('15:00'), { isPinned: false });
    const offers = await ask({ brought: [{ at: at('13:00') }], mayMove: true });
    const moving = offers.find(({ moves }) => moves.length > 0);
    expect(moving).toMatchObject({ startsAt: utc('13:00'), readyAt: utc('15:00') });
    expect(moving?.moves).toMatchObject([{ kind: 'work-order', number: work.number, title: 'Clutch' }]);
    expect(moving?.words).toMatch(new RegExp(`work order ${work.number} would begin .* later\\.$`));
    if (moving === undefined) throw new Error('there is an offer that moves others');
    const blunt = await desk.post('/reservations', { ...chosen(moving), moves: [] }).expect(409);
    expect(blunt.body.code).toBe('bay-taken');
    const held = (await desk.post('/reservations', chosen(moving)).expect(201)).body;
    expect(held).toMatchObject({ state: 'held', work: [{ isKept: false }] });
    expect(held.words).toContain('What the offer moves is moved when it is taken.');
    const where = async () =>
      (
        await shop.sql<{ starts_at: Date }>(
          'select starts_at from assignments where work_order_id = $1 and cancelled_at is null',
          [work.workOrderId],
        )
      )[0]?.starts_at.toISOString();
    expect(await where()).toBe(utc('13:00'));
    // Somebody lays the clutch down where it is: then there is no room any more, and nothing has changed.
    const [place] = await shop.sql<{ id: string }>(
      'select id from assignments where work_order_id = $1 and cancelled_at is null',
      [work.workOrderId],
    );
    const pin = (isPinned: boolean) =>
      desk.patch(`/assignments/${place?.id ?? ''}`, { isPinned }, '*').expect(200);
    await pin(true);
    const full = await desk.post(`/reservations/${held.id}/take`, caller).expect(409);
    expect(full.body.code).toBe('place-not-possible');
    expect((await desk.get(`/reservations/${held.id}`).expect(200)).body.state).toBe('held');
    expect(await where()).toBe(utc('13:00'));
    await pin(false);
    const taken = (await desk.post(`/reservations/${held.id}/take`, caller).expect(200)).body;
    expect(taken).toMatchObject({ state: 'taken', work: [{ isKept: true }] });
    expect(Date.parse(taken.work[0].endsAt)).toBeLessThanOrEqual(Date.parse(taken.promisedAt));
    expect(Date.parse((await where()) ?? '')).toBeGreaterThan(Date.parse(utc('13:00')));
    const [run] = await shop.sql<{ outcome: string; changes: { workOrderNumber: number }[] }>(
      'select outcome, changes from plan_runs where shop_id = $1',
      [shopId],
    );
    expect(run).toMatchObject({ outcome: 'applied' });
    expect(run?.changes.some(({ workOrderNumber }) => workOrderNumber === work.number)).toBe(true);
  });
});
