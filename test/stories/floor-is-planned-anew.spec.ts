import { USUAL_WEIGHTS } from '#libs/plan';
import { at, WEIGHTS, Yard } from '../builders/yard.js';
import { LiveReader } from '../support/live-reader.js';
import { planTimePasses } from '../support/plan-jobs.js';

describe('the floor is planned anew whenever something happens', () => {
  let yard: Yard;
  const open = async (...args: Parameters<typeof Yard.open>): Promise<Yard> =>
    (yard = await Yard.open(...args));
  afterEach(async () => {
    await yard.shop.stop();
  });

  it('as the shop has it, which the manager says and everybody may read', async () => {
    await open('apply');
    const { manager, frontDesk, technician } = yard.shop;
    const wanted = { mode: 'propose', weights: WEIGHTS, frozenMinutes: 60, horizonDays: 10 };
    const read = await technician.get('/plan/settings').expect(200);
    expect(read.body).toEqual({
      mode: 'apply',
      weights: WEIGHTS,
      frozenMinutes: 0,
      horizonDays: 14,
      version: 1,
    });
    expect(read.headers['etag']).toBe('"1"');
    await frontDesk.put('/plan/settings', wanted, 1).expect(403);
    await manager.put('/plan/settings', wanted, 0).expect(412);
    const bad = await manager
      .put(
        '/plan/settings',
        { ...wanted, mode: 'auto', weights: { ...WEIGHTS, lateness: 0, hourMoved: 1.5 } },
        1,
      )
      .expect(422);
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer).sort()).toEqual([
      '/mode',
      '/weights/hourMoved',
      '/weights/lateness',
    ]);
    expect((await manager.put('/plan/settings', wanted, 1).expect(200)).body).toEqual({
      ...wanted,
      version: 2,
    });
    const stranger = await (await yard.shop.addShop('far-yard')).person('manager');
    expect((await stranger.get('/plan/settings').expect(200)).body).toEqual({
      ...{ mode: 'propose', weights: USUAL_WEIGHTS, frozenMinutes: 120, horizonDays: 21, version: 0 },
    });
  });

  it('gives released work a place, says why, and writes nothing when nothing happens', async () => {
    await open('apply');
    const live = await LiveReader.open(yard.shop.url, yard.shop.frontDesk);
    const [first, second] = [await yard.work(200), await yard.work(100)];
    await yard.settles();
    const run = await yard.lastRun();
    expect(run).toMatchObject({
      outcome: 'applied',
      improve: false,
      askedBy: null,
      changeCount: 2,
      decision: null,
    });
    expect(run.causes.map((c: { kind: string }) => c.kind)).toContain('work-order');
    expect(run.causes.at(-1).words).toBe(
      `Work order ${second.number} (Front brake pads) was released, changed, finished or withdrawn.`,
    );
    const told = run.changes.find((c: { workOrderId: string }) => c.workOrderId === first.workOrderId);
    const place = await yard.placeOf(first);
    expect(told).toMatchObject({
      ...{
        kind: 'new',
        workOrderNumber: first.number,
        title: 'Front brake pads',
        was: null,
        minutesLater: 0,
      },
      is: {
        startsAt: place.startsAt,
        endsAt: place.endsAt,
        bayId: place.bayId,
        technicianId: place.technicianId,
      },
    });
    expect(place).toMatchObject({ isPinned: false, planRunId: run.id, version: 1 });
    expect(Date.parse(place.endsAt) - Date.parse(place.startsAt)).toBe(2 * 3_600_000);
    await live.until((events) => events.some(({ data }) => data.kind === 'plan'));
    const kinds = live.changes.map(({ data }) => data.kind);
    expect([
      kinds.filter((k) => k === 'plan').length,
      kinds.filter((k) => k === 'assignment').length,
    ]).toEqual([1, 2]);
    live.close();
    const before = (await yard.runs()).length;
    await yard.settles();
    await planTimePasses(yard.shop, 'plan-improve');
    expect(await yard.runs()).toHaveLength(before);
  });

  it('tells whether a person, a tool, a bay or a day of the shop was the cause', async () => {
    await open('apply', { bays: 1 });
    await yard.work(100);
    const bar = await yard.floor.tool(1, 'spring bar');
    await yard.settles();
    const { manager } = yard.shop;
    const causes = async () => {
      await yard.settles();
      return (await yard.lastRun()).causes.map(({ kind, words }: { kind: string; words: string }) => [
        ...[kind, words],
      ]) as string[][];
    };
    await manager.put(`/technicians/${yard.bram}/skills`, { skills: [] }, '*').expect(200);
    const away = { startsAt: at('14:00'), endsAt: at('16:00') };
    await manager.post(`/technicians/${yard.bram}/absences`, away).expect(201);
    expect(await causes()).toEqual([
      ['technician', 'Shifts or skills of Bram were changed.'],
      ['technician', 'An absence of Bram was changed.'],
    ]);
    await manager.post(`/special-tools/${bar}/closures`, { unit: 1, reason: 'Lent' }).expect(201);
    expect(await causes()).toEqual([
      ['tool', 'spring bar was taken out of service, or its time was changed.'],
    ]);
    await manager.post(`/bays/${yard.bays[0]}/closures`, { reason: 'Cable frayed' }).expect(201);
    expect((await causes()).map(([kind]) => kind)).toEqual(['bay']);
    await manager.post('/closed-days', { day: '2026-03-20', name: 'Stock taking' }).expect(201);
    expect(await causes()).toEqual([['calendar', 'Days on which the shop is closed were changed.']]);
  });

  it('follows who has claimed it', async () => {
    await open('apply', { bays: 1 });
    const work = await yard.work(100);
    await yard.settles();
    const before = await yard.placeOf(work);
    const other = before.technicianId === yard.bram ? yard.shop.secondTechnician : yard.shop.technician;
    await other.post(`/work-orders/${work.workOrderId}/claims`).expect(201);
    await yard.settles();
    expect(await yard.placeOf(work)).toMatchObject({
      ...{ id: before.id, technicianId: other.staffId, startsAt: before.startsAt, version: 2 },
    });
    const run = await yard.lastRun();
    expect(run).toMatchObject({ outcome: 'applied', causes: [{ kind: 'claim' }] });
    expect(run.changes).toMatchObject([
      { kind: 'changed', technicianChanged: true, bayChanged: false, minutesLater: 0 },
    ]);
  });

  it('moves what comes after work that takes longer, and tells the promise that breaks by it', async () => {
    await open('apply', { bays: 1 });
    const running = await yard.work(100);
    await yard.settles();
    const early = await yard.placeOf(running);
    const who = early.technicianId === yard.bram ? yard.shop.technician : yard.shop.secondTechnician;
    const next = await yard.work(200, at('11:00'));
    await who.post('/clock/on', { workOrderId: running.workOrderId }).expect(201);
    await yard.settles();
    expect(await yard.placeOf(next)).toMatchObject({ startsAt: at('09:00'), endsAt: at('11:00') });
    yard.shop.clock.set(new Date(at('09:05')));
    await planTimePasses(yard.shop, 'plan-look');
    const run = await yard.lastRun();
    expect(run).toMatchObject({
      ...{
        outcome: 'applied',
        causes: [{ kind: 'overrun', subjects: { workOrderId: running.workOrderId } }],
      },
      changes: [{ workOrderNumber: next.number, kind: 'changed' }],
      promises: { broken: [{ repairOrderId: next.repairOrderId, promisedAt: at('11:00') }], kept: [] },
    });
    const [stretched, moved] = [await yard.placeOf(running), await yard.placeOf(next)];
    expect(stretched).toMatchObject({ id: early.id, startsAt: early.startsAt, planRunId: early.planRunId });
    expect(Date.parse(stretched.endsAt)).toBeGreaterThan(Date.parse(at('09:05')));
    expect(moved.startsAt).toBe(stretched.endsAt);
    await who.post(`/work-orders/${running.workOrderId}/finish`).expect(200);
    await yard.settles();
    expect((await yard.placeOf(next)).planRunId).not.toBeNull();
  });

  it('moves work whose part will come later, takes it out when nobody knows, and brings it back when it is known', async () => {
    await open('apply', { bays: 1 });
    const items = [{ name: 'pad set', expectedAt: at('08:30') }];
    const work = await yard.work(100, at('12:00'), { items });
    await yard.settles();
    const before = await yard.placeOf(work);
    expect(before.startsAt).toBe(at('08:30'));
    const tell = (expectedAt: string | null) =>
      yard.shop.frontDesk.post(`/line-items/${work.itemIds[0]}/expectations`, { expectedAt }).expect(201);
    await tell(at('13:00'));
    await yard.settles();
    const run = await yard.lastRun();
    const part = {
      kind: 'part',
      subjects: { lineItemId: work.itemIds[0], repairOrderId: work.repairOrderId },
    };
    expect(run).toMatchObject({
      ...{ outcome: 'applied', causes: [part], changeCount: 1 },
      changes: [
        {
          ...{ kind: 'changed', workOrderId: work.workOrderId, minutesLater: 270 },
          ...{ was: { startsAt: at('08:30') }, is: { startsAt: at('13:00'), endsAt: at('14:00') } },
        },
      ],
      promises: { broken: [{ repairOrderId: work.repairOrderId, promisedAt: at('12:00') }], kept: [] },
    });
    expect(run.causes[0].words).toMatch(
      /^Parts came in or are expected at another time \(Repair order \d+\)\.$/,
    );
    expect(await yard.placeOf(work)).toMatchObject({ id: before.id, startsAt: at('13:00') });
    await tell(null);
    await yard.settles();
    expect(await yard.lastRun()).toMatchObject({
      causes: [part],
      changes: [{ kind: 'taken-out', is: null }],
    });
    expect(await yard.findPlace(work.workOrderId)).toBeUndefined();
    await tell(at('10:00'));
    await yard.settles();
    expect(await yard.lastRun()).toMatchObject({ causes: [part], changes: [{ kind: 'new', was: null }] });
    expect((await yard.placeOf(work)).startsAt).toBe(at('10:00'));
  });

  it('moves what has not begun in time, such as work whose part did not come', async () => {
    await open('apply', { bays: 1 });
    const work = await yard.work(100, undefined, { items: [{ name: 'pad set', expectedAt: at('08:30') }] });
    await yard.settles();
    expect((await yard.placeOf(work)).startsAt).toBe(at('08:30'));
    yard.shop.clock.set(new Date(at('08:45')));
    await planTimePasses(yard.shop, 'plan-look');
    expect((await yard.lastRun()).causes).toMatchObject([{ kind: 'late-start' }]);
    expect((await yard.placeOf(work)).startsAt).toBe(at('08:45'));
  });

  it('keeps work whose part is overdue for a day, then says what to ask, until a new date is told', async () => {
    await open('apply', { bays: 1 });
    // Two days of work that is promised come first on the only lift.
    const first = await yard.work(1200, at('20:00'));
    const work = await yard.work(100, undefined, { items: [{ name: 'pad set', expectedAt: at('08:30') }] });
    await yard.settles();
    expect((await yard.placeOf(first)).startsAt).toBe(at('08:00'));
    const { frontDesk, clock } = yard.shop;
    const page = async () => (await frontDesk.get('/plan').expect(200)).body;
    expect((await page()).overdueParts).toEqual([]);
    const hold = async () =>
      (await frontDesk.get(`/work-orders/${work.workOrderId}`).expect(200)).body.holds[0];
    await yard.shop.secondTechnician.post('/clock/on', { workOrderId: first.workOrderId }).expect(201);
    await yard.settles();
    clock.set(new Date(at('08:45')));
    const overdue = {
      ...{ lineItemId: work.itemIds[0], kind: 'part', name: 'pad set', since: at('08:30') },
      ...{ workOrderId: work.workOrderId, number: work.number, repairOrderId: work.repairOrderId },
    };
    expect((await page()).overdueParts).toMatchObject([overdue]);
    expect(await hold()).toEqual({
      kind: 'parts',
      detail: 'Part overdue since 2026-03-11 08:30: 1 of 1 × pad set. Ask the supplier and enter a new date.',
    });
    const [{ isOverdue }] = (
      await frontDesk.get(`/repair-orders/${work.repairOrderId}/part-needs`).expect(200)
    ).body.items;
    expect(isOverdue).toBe(true);
    await yard.placeOf(work);
    clock.set(new Date(at('08:31', '2026-03-12')));
    await planTimePasses(yard.shop, 'plan-look');
    const run = await yard.lastRun();
    expect(run.changes).toMatchObject([{ kind: 'taken-out', workOrderId: work.workOrderId }]);
    expect(run.causes).toMatchObject([{ kind: 'part-overdue', subjects: { workOrderId: work.workOrderId } }]);
    const why =
      'Overdue since 2026-03-11 08:30: pad set. Ask the supplier and enter a new date; it is planned again then.';
    expect(run.changes[0].why).toBe(why);
    expect(await page()).toMatchObject({
      notPlanned: [{ workOrderId: work.workOrderId, why }],
      overdueParts: [overdue],
    });
    await frontDesk
      .post(`/line-items/${work.itemIds[0]}/expectations`, { expectedAt: at('12:00', '2026-03-12') })
      .expect(201);
    await yard.settles();
    expect(await page()).toMatchObject({ notPlanned: [], overdueParts: [] });
    await yard.placeOf(work);
  });

  it('goes round an absence and a lift that is out', async () => {
    await open('apply');
    const [one, two] = [await yard.work(200, at('12:00')), await yard.work(200, at('12:00'))];
    await yard.settles();
    const before = [await yard.placeOf(one), await yard.placeOf(two)];
    expect(new Set(before.map(({ technicianId }) => technicianId)).size).toBe(2);
    expect(new Set(before.map(({ bayId }) => bayId)).size).toBe(2);
    await yard.shop.manager
      .post(`/technicians/${yard.bram}/absences`, {
        startsAt: at('08:00'),
        endsAt: at('17:00'),
        reason: 'ill',
      })
      .expect(201);
    await yard.settles();
    const after = [await yard.placeOf(one), await yard.placeOf(two)];
    expect(after.map(({ technicianId }) => technicianId)).toEqual([yard.saffi, yard.saffi]);
    const out = after[1]?.bayId ?? '';
    await yard.shop.manager
      .post(`/bays/${out}/closures`, { startsAt: at('08:00'), reason: 'cable worn' })
      .expect(201);
    await yard.settles();
    const last = [await yard.placeOf(one), await yard.placeOf(two)];
    expect(last.map(({ bayId }) => bayId)).not.toContain(out);
    const run = await yard.lastRun();
    expect(run.outcome).toBe('applied');
    expect(run.changes.length).toBeGreaterThan(0);
    for (const change of run.changes) expect(change.why).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}/);
  });

  it('takes out what the owner no longer wants and uses the time', async () => {
    await open('apply', { bays: 1 });
    const first = await yard.work(300, at('11:00'));
    const second = await yard.work(200, at('13:00'));
    await yard.settles();
    expect((await yard.placeOf(second)).startsAt).toBe(at('11:00'));
    await yard.floor.decide(first.repairOrderId, first.lineId, 'declined');
    await yard.floor.withdraw(first.lineId);
    await yard.settles();
    expect(await yard.findPlace(first.workOrderId)).toBeUndefined();
    // The promise is kept where it is, so it is not moved; the time is free for what comes.
    expect((await yard.placeOf(second)).startsAt).toBe(at('11:00'));
    const third = await yard.work(100, at('10:00'));
    await yard.settles();
    expect(Date.parse((await yard.placeOf(third)).endsAt)).toBeLessThanOrEqual(Date.parse(at('10:00')));
  });
});
