import { randomUUID } from 'node:crypto';
import { FloorBuilder } from '../builders/floor.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

describe('technicians clock their work', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let bram: Person;
  let saffi: Person;
  beforeAll(async () => {
    shop = await shopUnderTest();
    floor = new FloorBuilder(shop);
    bram = shop.technician;
    saffi = shop.secondTechnician;
    await floor.bay();
  });
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(() => shop.clock.passMinutes(60));
  const state = async (id: string): Promise<string> =>
    (await shop.frontDesk.get(`/work-orders/${id}`)).body.state;
  const now = (): string => shop.clock.now().toISOString();
  const ago = (minutes: number): string =>
    new Date(shop.clock.now().getTime() - minutes * 60_000).toISOString();

  it('on takes the work order, off leaves it paused, and every second is there', async () => {
    const { workOrderId, number } = await floor.work({ hundredths: 150 });
    const on = await bram.post('/clock/on', { workOrderId }).expect(201);
    expect(on.body).toMatchObject({
      entry: {
        workOrderId,
        workOrderNumber: number,
        kind: 'work',
        startedAt: now(),
        endedAt: null,
        seconds: 0,
      },
      ended: null,
      warnings: [{ code: 'not-in-attendance' }],
    });
    expect(await state(workOrderId)).toBe('on-the-clock');
    const claimed = await saffi.post(`/work-orders/${workOrderId}/claims`).expect(409);
    expect(claimed.body.holder.displayName).toBe('Bram');
    const busy = await saffi.post('/clock/on', { workOrderId }).expect(409);
    expect(busy.body).toMatchObject({ code: 'work-order-claimed', holder: { displayName: 'Bram' } });
    const kept = await bram.delete(`/work-orders/${workOrderId}/claims/current`).expect(409);
    expect(kept.body.code).toBe('work-order-state');
    const again = await bram.post('/clock/on', { workOrderId }).expect(409);
    expect(again.body).toMatchObject({ code: 'already-clocked-on', entry: { workOrderNumber: number } });
    shop.clock.passMinutes(36);
    expect((await bram.get('/clock/current').expect(200)).body).toMatchObject({
      entry: { workOrderId, seconds: 2160 },
      attendance: null,
    });
    const off = await bram.post('/clock/off').expect(200);
    expect(off.body.entry).toMatchObject({
      endedAt: now(),
      endKind: 'off',
      seconds: 2160,
      endedBy: bram.staffId,
    });
    expect(await state(workOrderId)).toBe('paused');
    expect((await bram.post('/clock/off').expect(409)).body.code).toBe('not-clocked-on');
    expect((await bram.get('/clock/current')).body.entry).toBeNull();
  });

  it('a switch ends the one and begins the other at the same instant; a pause says why', async () => {
    const [a, b] = [await floor.work(), await floor.work()];
    expect((await bram.post('/clock/switch', { workOrderId: a.workOrderId }).expect(409)).body.code).toBe(
      'not-clocked-on',
    );
    await bram.post('/clock/on', { workOrderId: a.workOrderId }).expect(201);
    shop.clock.passMinutes(10);
    expect((await bram.post('/clock/switch', { workOrderId: a.workOrderId }).expect(409)).body.code).toBe(
      'already-clocked-on',
    );
    const switched = await bram.post('/clock/switch', { workOrderId: b.workOrderId }).expect(201);
    expect(switched.body.entry.startedAt).toBe(switched.body.ended.endedAt);
    expect(switched.body.ended).toMatchObject({
      workOrderId: a.workOrderId,
      endKind: 'switch',
      seconds: 600,
    });
    const errand = await bram.post('/clock/switch', { indirectKind: 'parts-run' }).expect(201);
    expect(errand.body).toMatchObject({
      entry: { kind: 'indirect', indirectKind: 'parts-run', workOrderId: null },
    });
    shop.clock.passMinutes(5);
    await bram.post('/clock/switch', { workOrderId: b.workOrderId }).expect(201);
    expect((await bram.post('/clock/pause', {}).expect(422)).body.fields[0].pointer).toBe('/reason');
    const paused = await bram.post('/clock/pause', { reason: 'caliper not here' }).expect(200);
    expect(paused.body.entry).toMatchObject({ endKind: 'pause', endReason: 'caliper not here' });
    // Two taps in one millisecond: an entry lasts one, and the next begins where it ended.
    const rows = await shop.sql<{ ms: number; gap: number | null }>(
      `select extract(milliseconds from ended_at - started_at)::int as ms,
              extract(milliseconds from started_at - lag(ended_at) over (order by started_at))::int as gap
         from clock_entries where technician_id = $1 and started_at >= $2 order by started_at`,
      [bram.staffId, ago(15)],
    );
    expect(rows.map(({ ms }) => ms)).toEqual([600_000, 1, 300_000 - 1, 1].map((ms) => ms % 60_000));
    expect(rows.slice(1).map(({ gap }) => gap)).toEqual([0, 0, 0]);
    const indirect = await bram.post('/clock/indirect', { kind: 'cleaning' }).expect(201);
    expect(indirect.body.entry.startedAt > paused.body.entry.startedAt).toBe(true);
    expect(
      (await bram.post('/clock/indirect', { kind: 'cleaning' }).expect(409)).body.entry.indirectKind,
    ).toBe('cleaning');
    await bram.post('/clock/off').expect(200);
  });

  it('refuses work that the owner has not agreed to, with the reason in words', async () => {
    const order = await floor.repairOrder();
    await floor.line({}, order);
    const refused = async (wish: object) => (await bram.post('/clock/on', wish).expect(409)).body;
    const silent = await floor.line({ title: 'Rear struts', answer: null }, order);
    const body = await refused({ lineId: silent.lineId });
    expect(body).toMatchObject({
      code: 'work-not-authorised',
      reason: 'no-answer',
      revisionNumber: 2,
      sentAt: now(),
    });
    expect(body.detail).toMatch(
      /^Revision 2 with "Rear struts" was sent on 2026-03-11 \d\d:\d\d; the owner has not answered\.$/,
    );
    const draft = await floor.line({ sent: false }, order);
    expect(await refused({ lineId: draft.lineId })).toMatchObject({ reason: 'not-sent', revisionNumber: 3 });
    const no = await floor.line({ answer: 'declined' });
    expect(await refused({ lineId: no.lineId })).toMatchObject({ reason: 'declined' });
    const later = await floor.line({ answer: 'deferred' });
    expect((await refused({ lineId: later.lineId })).detail).toContain('put "Front brake pads" off');
    const withdrawn = await floor.work();
    await floor.decide(withdrawn.repairOrderId, withdrawn.lineId, 'declined');
    await floor.withdraw(withdrawn.lineId);
    expect(await refused({ workOrderId: withdrawn.workOrderId })).toMatchObject({
      code: 'work-not-authorised',
      reason: 'declined',
    });
    const held = await floor.work({ items: [{}] });
    expect(await refused({ lineId: held.lineId })).toMatchObject({
      code: 'work-order-on-hold',
      holds: [{ kind: 'parts' }],
    });
    const skilled = await floor.work({ skills: ['high-voltage'] });
    expect((await refused({ workOrderId: skilled.workOrderId })).code).toBe('technician-not-qualified');
    await bram.post('/clock/on', { lineId: randomUUID() }).expect(404);
    await bram.post('/clock/on', { workOrderId: randomUUID() }).expect(404);
    const both = await bram.post('/clock/on', {}).expect(422);
    expect(both.body.fields.map((f: { pointer: string }) => f.pointer)).toEqual(['/workOrderId', '/lineId']);
    await bram.post('/clock/on', { workOrderId: held.workOrderId, lineId: held.lineId }).expect(422);
    expect(
      await shop.sql(`select id from claims where work_order_id = any ($1)`, [
        [held.workOrderId, skilled.workOrderId],
      ]),
    ).toEqual([]);
  });

  it('finishing stops the clock; another pair of eyes checks; what does not pass goes back with the note', async () => {
    const { workOrderId } = await floor.work();
    const path = `/work-orders/${workOrderId}`;
    expect((await bram.post(`${path}/finish`).expect(409)).body.code).toBe('work-order-state');
    await bram.post('/clock/on', { workOrderId }).expect(201);
    expect((await saffi.post(`${path}/finish`).expect(409)).body.code).toBe('work-order-not-held');
    expect((await saffi.post(`${path}/check`, { passed: true }).expect(409)).body.code).toBe(
      'work-order-state',
    );
    shop.clock.passMinutes(50);
    const done = await bram.post(`${path}/finish`).expect(200);
    expect(done.body).toMatchObject({
      state: 'finished',
      finishedBy: bram.staffId,
      clockedSeconds: 3000,
      holds: [],
    });
    const [entry] = (await bram.get('/clock/entries?limit=1')).body.items;
    expect(entry).toMatchObject({ workOrderId, endKind: 'finish' });
    expect((await bram.post('/clock/on', { workOrderId }).expect(409)).body.code).toBe('work-order-state');
    expect((await bram.delete(`${path}/claims/current`).expect(409)).body.code).toBe('work-order-state');
    const own = await bram.post(`${path}/check`, { passed: true }).expect(422);
    expect(own.body.fields[0].pointer).toBe('/note');
    await saffi.post(`${path}/check`, { passed: false }).expect(422);
    const back = await saffi
      .post(`${path}/check`, { passed: false, note: 'pad retainer missing' })
      .expect(200);
    expect(back.body).toMatchObject({ state: 'paused', finishedAt: null, checkNote: 'pad retainer missing' });
    const audit = await shop.sql(
      `select actor_id, detail from audit_entries where action = 'work-order.send-back' and subject_id = $1`,
      [workOrderId],
    );
    expect(audit).toMatchObject([{ actor_id: saffi.staffId, detail: { note: 'pad retainer missing' } }]);
    await bram.post('/clock/on', { workOrderId }).expect(201);
    shop.clock.passMinutes(5);
    const byManager = await shop.manager.post(`${path}/finish`).expect(200);
    expect(byManager.body).toMatchObject({ finishedBy: shop.manager.staffId, clockedSeconds: 3300 });
    await bram.post(`${path}/check`, { passed: true }).expect(422);
    const checked = await saffi.post(`${path}/check`, { passed: true }).expect(200);
    expect(checked.body).toMatchObject({ state: 'checked', checkedBy: saffi.staffId, checkedAt: now() });
    await saffi.post(`${path}/check`, { passed: true }).expect(409);
    const alone = await floor.work();
    await bram.post('/clock/on', { workOrderId: alone.workOrderId }).expect(201);
    await bram.post(`/work-orders/${alone.workOrderId}/finish`).expect(200);
    await bram
      .post(`/work-orders/${alone.workOrderId}/check`, { passed: true, note: 'Nobody else in today' })
      .expect(200);
    await bram.post(`/work-orders/${alone.workOrderId}/check`, { passed: 'yes' }).expect(422);
  });

  it('a forgotten clock is stopped by a manager who says when and why, never silently', async () => {
    const { workOrderId } = await floor.work();
    const { id } = (await bram.post('/clock/on', { workOrderId }).expect(201)).body.entry;
    const startedAt = now();
    shop.clock.passMinutes(14 * 60);
    const close = (at: string, reason?: string, who = shop.manager) =>
      who.post(`/clock/entries/${id}/close`, { at, reason });
    await close(now(), 'x', bram).expect(403);
    expect((await close(startedAt, 'gone home').expect(422)).body.fields[0].pointer).toBe('/at');
    expect(
      (await close(new Date(shop.clock.now().getTime() + 1000).toISOString(), 'r').expect(422)).body.code,
    ).toBe('period-not-valid');
    expect((await close(ago(60)).expect(422)).body.fields[0].pointer).toBe('/reason');
    const closed = await close(ago(6 * 60), 'left at four, says the door log').expect(200);
    expect(closed.body).toMatchObject({
      endKind: 'closed-by-manager',
      endReason: 'left at four, says the door log',
      endedBy: shop.manager.staffId,
      seconds: 8 * 3600,
    });
    expect((await close(ago(60), 'again').expect(409)).body.code).toBe('clock-entry-ended');
    await shop.manager.post(`/clock/entries/${randomUUID()}/close`, { at: now(), reason: 'x' }).expect(404);
  });

  it('a correction is a new entry; the old one stays, marked, and counts nowhere', async () => {
    const [right, wrong] = [await floor.work(), await floor.work()];
    shop.clock.passMinutes(30);
    await bram.post('/clock/on', { workOrderId: wrong.workOrderId }).expect(201);
    const id = (await bram.get('/clock/current')).body.entry.id;
    const path = `/clock/entries/${id}/corrections`;
    const wish = {
      startedAt: ago(20),
      endedAt: ago(5),
      reason: 'tapped the wrong ticket',
      workOrderId: right.workOrderId,
    };
    expect((await shop.manager.post(path, wish).expect(409)).body.code).toBe('clock-entry-open');
    shop.clock.passMinutes(60);
    await bram.post('/clock/switch', { indirectKind: 'meeting' }).expect(201);
    shop.clock.passMinutes(10);
    await bram.post('/clock/off').expect(200);
    await bram.post(path, wish).expect(403);
    const made = (over: object) =>
      shop.manager.post(path, { ...wish, startedAt: ago(70), endedAt: ago(40), ...over });
    const early = await made({ startedAt: ago(101) }).expect(422);
    expect(early.body).toMatchObject({ code: 'period-not-valid', fields: [{ pointer: '/startedAt' }] });
    await made({ endedAt: ago(70) }).expect(422);
    await made({ endedAt: ago(-1) }).expect(422);
    const overlap = await made({ endedAt: ago(9) }).expect(409);
    expect(overlap.body).toMatchObject({
      code: 'time-overlaps',
      entry: { indirectKind: 'meeting', startedAt: ago(10) },
    });
    await made({ workOrderId: randomUUID() }).expect(404);
    await made({ indirectKind: 'other' }).expect(422);
    expect((await made({ reason: '' }).expect(422)).body.fields[0].pointer).toBe('/reason');
    const corrected = await made({}).expect(201);
    expect(corrected.body).toMatchObject({
      correctsId: id,
      correctionReason: 'tapped the wrong ticket',
      recordedBy: shop.manager.staffId,
      technicianId: bram.staffId,
      workOrderId: right.workOrderId,
      endKind: 'corrected',
      seconds: 1800,
    });
    expect((await made({}).expect(409)).body.code).toBe('clock-entry-corrected');
    const seen = (await shop.manager.get(`/clock/entries?technicianId=${bram.staffId}&limit=3`).expect(200))
      .body.items;
    expect(seen.map((e: { id: string; supersededAt: string | null }) => [e.id, e.supersededAt])).toEqual([
      [expect.any(String), null],
      [corrected.body.id, null],
      [id, now()],
    ]);
    const clocked = async (w: { workOrderId: string }) =>
      (await shop.manager.get(`/work-orders/${w.workOrderId}`)).body.clockedSeconds;
    expect([await clocked(right), await clocked(wrong)]).toEqual([1800, 0]);
    const withdrawn = await floor.work();
    await floor.withdraw(withdrawn.lineId);
    const nowhere = await shop.manager
      .post(`/clock/entries/${corrected.body.id}/corrections`, {
        ...wish,
        startedAt: ago(70),
        endedAt: ago(40),
        workOrderId: withdrawn.workOrderId,
      })
      .expect(409);
    expect(nowhere.body.code).toBe('work-not-authorised');
    const indirect = await shop.manager
      .post(`/clock/entries/${corrected.body.id}/corrections`, {
        startedAt: ago(70),
        endedAt: ago(40),
        indirectKind: 'training',
        reason: 'it was training',
      })
      .expect(201);
    expect(indirect.body).toMatchObject({ kind: 'indirect', workOrderId: null, indirectKind: 'training' });
  });

  it('in and out; nobody leaves with the clock running; a manager closes and corrects with a reason', async () => {
    const { workOrderId } = await floor.work();
    expect((await saffi.post('/attendance/out').expect(409)).body.code).toBe('not-in-attendance');
    const entry = (await saffi.post('/attendance/in').expect(201)).body;
    expect((await saffi.post('/attendance/in').expect(409)).body).toMatchObject({
      code: 'already-in-attendance',
      entry: { id: entry.id },
    });
    const on = await saffi.post('/clock/on', { workOrderId }).expect(201);
    expect(on.body.warnings).toEqual([]);
    shop.clock.passMinutes(30);
    expect((await saffi.post('/attendance/out').expect(409)).body.code).toBe('clock-entry-open');
    await saffi.post('/clock/off').expect(200);
    const out = await saffi.post('/attendance/out').expect(200);
    expect(out.body).toMatchObject({ id: entry.id, seconds: 1800, endedAt: now() });
    const again = (await saffi.post('/attendance/in').expect(201)).body;
    shop.clock.passMinutes(120);
    await saffi.post(`/attendance/${again.id}/close`, { at: ago(30), reason: 'r' }).expect(403);
    await shop.manager
      .post(`/attendance/${again.id}/corrections`, { startedAt: ago(100), endedAt: ago(30), reason: 'r' })
      .expect(409);
    const closed = await shop.manager
      .post(`/attendance/${again.id}/close`, { at: ago(30), reason: 'left early' })
      .expect(200);
    expect(closed.body.seconds).toBe(90 * 60);
    await shop.manager
      .post(`/attendance/${again.id}/close`, { at: ago(30), reason: 'left early' })
      .expect(409);
    const overlap = await shop.manager
      .post(`/attendance/${again.id}/corrections`, {
        startedAt: ago(121),
        endedAt: ago(30),
        reason: 'came earlier',
      })
      .expect(409);
    expect(overlap.body).toMatchObject({ code: 'time-overlaps', entry: { id: entry.id } });
    await shop.manager
      .post(`/attendance/${again.id}/corrections`, {
        startedAt: ago(110),
        endedAt: ago(30),
        reason: 'came later',
      })
      .expect(201);
    const list = (await saffi.get('/attendance').expect(200)).body.items;
    expect(list).toHaveLength(3);
    expect(list.filter((e: { supersededAt: string | null }) => e.supersededAt !== null)).toMatchObject([
      { id: again.id },
    ]);
    await shop.frontDesk.post('/attendance/in').expect(201);
  });

  it('shows everybody their own time, page by page; that of others only to a manager, that of other shops to nobody', async () => {
    await saffi.get(`/clock/entries?technicianId=${bram.staffId}`).expect(403);
    await saffi.get(`/attendance?technicianId=${bram.staffId}`).expect(403);
    await shop.frontDesk.get('/clock/entries').expect(403);
    await shop.frontDesk.post('/clock/indirect', { kind: 'cleaning' }).expect(403);
    await bram.post('/clock/indirect', { kind: 'sleeping' }).expect(422);
    const all = (await shop.manager.get('/clock/entries?limit=200').expect(200)).body.items;
    const own = (await bram.get('/clock/entries?limit=200').expect(200)).body.items;
    expect(own).toEqual(all.filter((e: { technicianId: string }) => e.technicianId === bram.staffId));
    const ids: string[] = [];
    for (let cursor: string | null = ''; cursor !== null;) {
      const page: { body: { items: { id: string }[]; nextCursor: string | null } } = await shop.manager
        .get(`/clock/entries?limit=4${cursor ? `&cursor=${cursor}` : ''}`)
        .expect(200);
      ids.push(...page.body.items.map(({ id }) => id));
      cursor = page.body.nextCursor;
    }
    expect(ids).toEqual(all.map((e: { id: string }) => e.id));
    const day = (await shop.manager.get('/clock/entries?limit=200&from=2026-03-11&to=2026-03-11').expect(200))
      .body.items;
    expect(day.length).toBeGreaterThan(0);
    expect(day.length).toBeLessThan(all.length);
    const forged = Buffer.from(JSON.stringify(['yesterday', 'x'])).toString('base64url');
    expect((await bram.get(`/clock/entries?cursor=${forged}`).expect(422)).body.fields[0].pointer).toBe(
      '/cursor',
    );
    expect((await bram.get('/clock/entries?from=2026-02-30').expect(422)).body.fields[0].pointer).toBe(
      '/from',
    );
    const stranger = await (await shop.addShop('other-yard')).person('manager');
    const id = all[0].id;
    await stranger.post(`/clock/entries/${id}/close`, { at: ago(1), reason: 'x' }).expect(404);
    await stranger
      .post(`/clock/entries/${id}/corrections`, { startedAt: ago(2), endedAt: ago(1), reason: 'x' })
      .expect(404);
    await stranger
      .post('/clock/on', { workOrderId: all.find((e: { workOrderId: string }) => e.workOrderId).workOrderId })
      .expect(404);
    expect((await stranger.get('/clock/entries')).body.items).toEqual([]);
  });

  it('the database itself keeps what was clocked: an ended entry is not ended again, moved or deleted', async () => {
    const [entry] = await shop.sql<{ id: string }>(
      'select id from clock_entries where ended_at is not null and superseded_at is null limit 1',
    );
    for (const change of [
      "set started_at = started_at - interval '1 hour'",
      "set ended_at = ended_at + interval '1 hour'",
      `set end_kind = 'off', end_reason = 'rewritten'`,
    ])
      await expect(shop.sql(`update clock_entries ${change} where id = $1`, [entry?.id])).rejects.toThrow(
        'corrected by a new row',
      );
    await expect(shop.sql('delete from clock_entries where id = $1', [entry?.id])).rejects.toThrow(
      'corrected by a new row',
    );
  });
});
