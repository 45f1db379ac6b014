import { randomUUID } from 'node:crypto';
import { at, Yard } from '../builders/yard.js';
import type { MadeWork } from '../builders/floor.js';

describe('people decide about the plan', () => {
  let yard: Yard;
  const open = async (...args: Parameters<typeof Yard.open>): Promise<Yard> =>
    (yard = await Yard.open(...args));
  afterEach(async () => {
    await yard.shop.stop();
  });
  const assign = (
    work: MadeWork,
    bayId: string,
    technicianId: string,
    from: string,
    to: string,
    more: object = {},
  ) =>
    yard.shop.frontDesk.post('/assignments', {
      ...{ workOrderId: work.workOrderId, bayId, technicianId, startsAt: at(from), endsAt: at(to), ...more },
    });

  it('accept a proposal as a whole, or reject it, which is then not proposed again', async () => {
    await open('propose', { bays: 1 });
    const { frontDesk, technician } = yard.shop;
    const [one, two] = [await yard.work(100), await yard.work(100)];
    await yard.settles();
    expect(await yard.findPlace(one.workOrderId)).toBeUndefined();
    const first = await yard.lastRun();
    expect(first).toMatchObject({ outcome: 'proposed', decision: null, changeCount: 2 });
    expect((await frontDesk.get('/plan').expect(200)).body.openProposalId).toBe(first.id);
    await technician.post(`/plan/runs/${first.id}/accept`).expect(403);
    const rejected = await frontDesk.post(`/plan/runs/${first.id}/reject`).expect(200);
    expect(rejected.body).toMatchObject({ decision: 'rejected', decidedBy: { displayName: 'Wenna' } });
    expect((await frontDesk.post(`/plan/runs/${first.id}/accept`).expect(409)).body.code).toBe(
      'plan-run-state',
    );
    await frontDesk.post('/plan/runs', {}).expect(201);
    await yard.settles();
    expect(await yard.lastRun()).toMatchObject({
      ...{ outcome: 'unchanged', detail: 'The same was proposed and rejected.', changeCount: 0 },
    });
    const three = await yard.work(100);
    await yard.settles();
    const second = await yard.lastRun();
    expect(second).toMatchObject({ outcome: 'proposed', changeCount: 3 });
    const key = { 'idempotency-key': '"once"' };
    const accepted = await frontDesk.post(`/plan/runs/${second.id}/accept`, {}, key).expect(200);
    expect(accepted.body).toMatchObject({ outcome: 'proposed', decision: 'accepted' });
    expect((await frontDesk.post(`/plan/runs/${second.id}/accept`, {}, key).expect(200)).body.decision).toBe(
      'accepted',
    );
    for (const { workOrderId } of [one, two, three]) {
      const told = second.changes.find((c: { workOrderId: string }) => c.workOrderId === workOrderId);
      expect(await yard.findPlace(workOrderId)).toMatchObject({
        ...{
          startsAt: told.is.startsAt,
          technicianId: told.is.technicianId,
          planRunId: second.id,
          isPinned: false,
        },
      });
    }
    const runs = (await yard.runs()).length;
    await yard.settles();
    expect(await yard.runs()).toHaveLength(runs);
    await expect(
      yard.shop.sql(`update plan_runs set decision = 'rejected' where id = $1`, [second.id]),
    ).rejects.toMatchObject({ constraint: 'plan_runs_decided_once' });
    await expect(yard.shop.sql('delete from plan_runs where id = $1', [first.id])).rejects.toMatchObject({
      constraint: 'plan_runs_decided_once',
    });
  });

  it('are told when a proposal no longer fits, and another is on its way', async () => {
    await open('propose', { bays: 1 });
    const { frontDesk } = yard.shop;
    const [one, two] = [await yard.work(100), await yard.work(100)];
    await yard.settles();
    const proposal = await yard.lastRun();
    // Past the queue: the run that would take the proposal back has not come yet.
    const busy = await assign(two, yard.bays[0] ?? '', yard.bram, '08:00', '12:00').expect(201);
    const late = await frontDesk.post(`/plan/runs/${proposal.id}/accept`).expect(409);
    expect(late.body).toMatchObject({ code: 'plan-outdated', planRunId: expect.any(String) });
    expect(late.body.detail).toContain(`Work order ${two.number}`);
    expect(await yard.findPlace(one.workOrderId)).toBeUndefined();
    await yard.settles();
    const [next] = await yard.runs('?outcome=proposed');
    expect(next).toMatchObject({ decision: null, changeCount: 1 });
    expect((await yard.runs()).find(({ id }: { id: string }) => id === proposal.id)).toMatchObject({
      decision: 'superseded',
      decidedBy: null,
    });
    await frontDesk.post(`/plan/runs/${next.id}/accept`).expect(200);
    expect((await yard.placeOf(one)).startsAt >= at('12:00')).toBe(true);
    expect(await yard.placeOf(two)).toMatchObject({ id: busy.body.id, startsAt: at('08:00'), version: 1 });
    await frontDesk.post(`/plan/runs/${randomUUID()}/accept`).expect(404);
    const stranger = await (await yard.shop.addShop('far-yard')).person('manager');
    await stranger.get(`/plan/runs/${next.id}`).expect(404);
    expect((await stranger.get('/plan/runs').expect(200)).body.items).toEqual([]);
  });

  it('accept what follows work past its book hours also some minutes later, but not when that has gone on for long', async () => {
    await open('propose', { bays: 1 });
    const { frontDesk, clock, technician } = yard.shop;
    const running = await yard.work(100);
    await assign(running, yard.bays[0] ?? '', yard.bram, '08:00', '09:00').expect(201);
    await technician.post('/clock/on', { workOrderId: running.workOrderId }).expect(201);
    clock.set(new Date(at('09:10')));
    const next = await yard.work(100);
    await yard.settles();
    const proposal = await yard.lastRun();
    const told = proposal.changes.find(
      ({ workOrderId }: { workOrderId: string }) => workOrderId === next.workOrderId,
    );
    expect(told.is.startsAt > at('09:10')).toBe(true);
    clock.passMinutes(4);
    await frontDesk.post(`/plan/runs/${proposal.id}/accept`).expect(200);
    expect((await yard.placeOf(next)).startsAt).toBe(told.is.startsAt);
    expect((await yard.placeOf(running)).endsAt <= told.is.startsAt).toBe(true);
    await yard.settles();
    clock.passMinutes(16);
    const third = await yard.work(100);
    await yard.settles();
    const later = await yard.lastRun();
    expect(later).toMatchObject({ outcome: 'proposed', decision: null });
    clock.passMinutes(30);
    await frontDesk.post(`/plan/runs/${later.id}/accept`).expect(409);
    expect(await yard.findPlace(third.workOrderId)).toBeUndefined();
  });

  it('lay down places that the plan goes round, and give them to the plan', async () => {
    await open('apply', { bays: 1 });
    const { frontDesk } = yard.shop;
    const bay = yard.bays[0] ?? '';
    const [one, two] = [await yard.work(100, at('10:00')), await yard.work(100, at('10:00'))];
    await yard.settles();
    const moved = await yard.placeOf(one);
    const free = { startsAt: at('13:00'), endsAt: at('14:00') };
    const answer = await frontDesk.patch(`/assignments/${moved.id}`, free, moved.version).expect(200);
    expect(answer.body).toMatchObject({ ...free, isPinned: true });
    await yard.settles();
    expect(await yard.placeOf(one)).toMatchObject({ ...free, isPinned: true, planRunId: null });
    const given = await frontDesk
      .patch(`/assignments/${moved.id}`, { isPinned: false }, answer.body.version)
      .expect(200);
    expect(given.body).toMatchObject({ ...free, isPinned: false });
    await yard.settles();
    const after = await yard.placeOf(one);
    expect(Date.parse(after.endsAt)).toBeLessThanOrEqual(Date.parse(at('10:00')));
    expect(after.planRunId).not.toBeNull();
    expect((await yard.placeOf(two)).isPinned).toBe(false);
    const loose = await assign(await yard.work(100), bay, yard.saffi, '15:00', '16:00', {
      isPinned: false,
    }).expect(201);
    expect(loose.body.isPinned).toBe(false);
    await frontDesk.patch(`/assignments/${moved.id}`, { isPinned: 'no' }, '*').expect(422);
  });

  it('keep the length of what they laid down where its technician is away for a part of it', async () => {
    await open('apply', { bays: 1 });
    const { manager, frontDesk } = yard.shop;
    const work = await yard.work(100, at('11:00'));
    await assign(work, yard.bays[0] ?? '', yard.bram, '10:00', '11:00').expect(201);
    await yard.settles();
    const away = { startsAt: at('10:20'), endsAt: at('00:00', '2026-03-12') };
    const { body } = await manager.post(`/technicians/${yard.bram}/absences`, away).expect(201);
    await yard.settles();
    // Twenty minutes today, the rest on the next morning: not an hour's work in twenty minutes.
    const resting = { startsAt: at('10:00'), endsAt: at('08:40', '2026-03-12'), isPinned: true };
    expect(await yard.placeOf(work)).toMatchObject(resting);
    expect((await frontDesk.get('/plan').expect(200)).body.late).toMatchObject([
      { readyAt: at('08:40', '2026-03-12') },
    ]);
    await frontDesk.post('/plan/runs', {}).expect(201);
    await yard.settles();
    expect(await yard.placeOf(work)).toMatchObject(resting);
    await manager
      .delete(`/technicians/${yard.bram}/absences/${body.id}`, undefined, { 'if-match': `"${body.version}"` })
      .expect(204);
    await yard.settles();
    expect(await yard.placeOf(work)).toMatchObject({ startsAt: at('10:00'), endsAt: at('11:00') });
  });

  it('lose a place that cannot be kept, but not one that a person laid down', async () => {
    await open('apply', { bays: 1 });
    const bay = yard.bays[0] ?? '';
    const waits = { items: [{ name: 'seal', expectedAt: null }] };
    const [loose, pinned] = [await yard.work(100, undefined, waits), await yard.work(100, undefined, waits)];
    await assign(loose, bay, yard.bram, '09:00', '10:00', { isPinned: false }).expect(201);
    await assign(pinned, bay, yard.bram, '10:00', '11:00').expect(201);
    await yard.settles();
    expect(await yard.findPlace(loose.workOrderId)).toBeUndefined();
    const run = await yard.lastRun();
    expect(run).toMatchObject({
      outcome: 'applied',
      changes: [{ kind: 'taken-out', workOrderNumber: loose.number, is: null }],
    });
    expect(run.changes[0].why).toContain('seal');
    const place = await yard.placeOf(pinned);
    expect(place).toMatchObject({ startsAt: at('10:00'), isPinned: true, version: 1 });
    const next = await yard.work(180, at('12:30'));
    await yard.settles();
    const around = await yard.placeOf(next);
    expect(around.endsAt <= place.startsAt || around.startsAt >= place.endsAt).toBe(true);
  });

  it('take work out of the plan, which then leaves it alone until it is let in, claimed or given a place', async () => {
    await open('apply', { bays: 1 });
    const { frontDesk, technician } = yard.shop;
    const [one, two, three] = [await yard.work(100), await yard.work(100), await yard.work(100)];
    await yard.settles();
    const path = `/work-orders/${one.workOrderId}/planning`;
    expect((await technician.get(path).expect(200)).body).toEqual({
      ...{ workOrderId: one.workOrderId, leftOut: false, since: null, by: null },
    });
    const place = await yard.placeOf(one);
    await frontDesk
      .delete(`/assignments/${place.id}`, undefined, { 'if-match': `"${place.version}"` })
      .expect(204);
    await frontDesk.put(`/work-orders/${two.workOrderId}/planning`, { leftOut: true }, '*').expect(200);
    await frontDesk.put(`/work-orders/${three.workOrderId}/planning`, { leftOut: true }, '*').expect(200);
    await yard.settles();
    for (const { workOrderId } of [one, two, three])
      expect(await yard.findPlace(workOrderId)).toBeUndefined();
    expect((await technician.get(path).expect(200)).body).toMatchObject({
      leftOut: true,
      by: { displayName: 'Wenna' },
    });
    await technician.put(path, { leftOut: false }, '*').expect(403);
    await frontDesk.put(path, { leftOut: 'no' }, '*').expect(422);
    await frontDesk.put(`/work-orders/${randomUUID()}/planning`, { leftOut: false }, '*').expect(404);
    expect((await frontDesk.put(path, { leftOut: false }, '*').expect(200)).body.leftOut).toBe(false);
    await technician.post(`/work-orders/${two.workOrderId}/claims`).expect(201);
    await assign(three, yard.bays[0] ?? '', yard.saffi, '15:00', '16:00').expect(201);
    await yard.settles();
    for (const work of [one, two, three]) {
      expect(await yard.placeOf(work)).toBeDefined();
      const left = await yard.shop.sql(
        'select id from plan_left_out where work_order_id = $1 and lifted_at is null',
        [work.workOrderId],
      );
      expect(left).toEqual([]);
    }
    expect((await yard.placeOf(two)).technicianId).toBe(yard.bram);
    await technician.post('/clock/on', { workOrderId: two.workOrderId }).expect(201);
    await frontDesk.put(`/work-orders/${two.workOrderId}/planning`, { leftOut: true }, '*').expect(409);
  });

  it('plan by hand and are told which promises break and hold again', async () => {
    await open('by-hand', { bays: 1 });
    const { frontDesk } = yard.shop;
    const work = await yard.work(100, at('10:00'));
    const made = await assign(work, yard.bays[0] ?? '', yard.bram, '08:00', '09:00').expect(201);
    await yard.settles();
    expect(await yard.lastRun()).toMatchObject({ outcome: 'unchanged', promises: { broken: [] } });
    await frontDesk
      .patch(`/assignments/${made.body.id}`, { startsAt: at('12:00'), endsAt: at('13:30') }, 1)
      .expect(200);
    await yard.settles();
    const broken = await yard.lastRun();
    expect(broken).toMatchObject({
      outcome: 'unchanged',
      promises: {
        broken: [{ repairOrderId: work.repairOrderId, readyAt: at('13:30'), minutesLate: 210 }],
        kept: [],
      },
    });
    await frontDesk
      .patch(`/assignments/${made.body.id}`, { startsAt: at('08:30'), endsAt: at('09:30') }, 2)
      .expect(200);
    await yard.settles();
    expect((await yard.lastRun()).promises).toMatchObject({ broken: [], kept: [{ minutesLate: 0 }] });
    const asked = await frontDesk.post('/plan/runs', { improve: true }).expect(201);
    expect(asked.body).toMatchObject({ outcome: null, improve: true, askedBy: { displayName: 'Wenna' } });
    await yard.settles();
    const done = (await frontDesk.get(`/plan/runs/${asked.body.id}`).expect(200)).body;
    expect(done).toMatchObject({ outcome: 'unchanged', causes: [{ kind: 'asked' }] });
    expect(await yard.placeOf(work)).toMatchObject({ startsAt: at('08:30'), version: 3 });
    await frontDesk.post('/plan/runs', { improve: 'yes' }).expect(422);
    await frontDesk.get('/plan/runs?cursor=nonsense').expect(422);
    const [page] = [(await frontDesk.get('/plan/runs?limit=1').expect(200)).body];
    const next = (await frontDesk.get(`/plan/runs?limit=1&cursor=${page.nextCursor}`).expect(200)).body;
    expect(next.items[0].id < page.items[0].id).toBe(true);
  });

  it('keep the bay of a car that is apart, and put other work of it between', async () => {
    await open('apply', { bays: 1 });
    const { frontDesk } = yard.shop;
    const bay = yard.bays[0] ?? '';
    const [off, on] = await yard.floor.teardown([
      { hundredths: 100, needsLift: true },
      { hundredths: 100, needsLift: true, items: [{ name: 'seal', expectedAt: at('14:00') }] },
    ]);
    if (off === undefined || on === undefined) throw new Error('two pieces of work were asked for');
    const other = await yard.work(100, at('12:00'));
    await assign(off, bay, yard.bram, '09:00', '10:00').expect(201);
    await yard.settles();
    expect(await yard.placeOf(off)).toMatchObject({ endsAt: at('10:00'), bayUntil: at('14:00') });
    expect(await yard.placeOf(on)).toMatchObject({ bayId: bay, startsAt: at('14:00'), bayUntil: null });
    const aside = await yard.placeOf(other);
    expect(aside.endsAt <= at('09:00') || aside.startsAt >= at('15:00')).toBe(true);
    const taken = await assign(await yard.work(50), bay, yard.saffi, '11:00', '12:00').expect(409);
    expect(taken.body.code).toBe('bay-taken');
    await expect(
      yard.shop.sql(
        `insert into assignments (shop_id, id, work_order_id, bay_id, technician_id, starts_at, ends_at, is_pinned, made_by, made_at, version)
         values ($1, gen_random_uuid(), $2, $3, $4, $5, $6, true, $4, now(), 1)`,
        [yard.shop.shopId, (await yard.work(50)).workOrderId, bay, yard.saffi, at('11:00'), at('11:30')],
      ),
    ).rejects.toMatchObject({ constraint: 'assignments_bay_no_overlap' });
    const between = await yard.floor.work({ hundredths: 50, needsLift: true }, off.repairOrderId);
    await assign(between, bay, yard.saffi, '11:00', '11:30').expect(201);
    expect(await yard.placeOf(off)).toMatchObject({ bayUntil: at('11:00') });
    expect(await yard.placeOf(between)).toMatchObject({ bayUntil: at('14:00') });
    const held = await yard.placeOf(between);
    await frontDesk
      .patch(`/assignments/${held.id}`, { startsAt: at('10:30'), endsAt: at('11:00') }, '*')
      .expect(200);
    expect(await yard.placeOf(off)).toMatchObject({ bayUntil: at('10:30') });
    expect(await yard.placeOf(between)).toMatchObject({ bayUntil: at('14:00') });
    await frontDesk.delete(`/assignments/${held.id}`, undefined, { 'if-match': '*' }).expect(204);
    expect(await yard.placeOf(off)).toMatchObject({ bayUntil: at('14:00') });
    yard.shop.clock.set(new Date(at('09:00')));
    await yard.shop.technician.post('/clock/on', { workOrderId: off.workOrderId }).expect(201);
    yard.shop.clock.set(new Date(at('09:40')));
    await yard.shop.technician.post(`/work-orders/${off.workOrderId}/finish`).expect(200);
    expect(await yard.placeOf(off)).toMatchObject({ endsAt: at('09:40'), bayUntil: at('14:00') });
    await yard.settles();
    expect(await yard.placeOf(off)).toMatchObject({ bayUntil: (await yard.placeOf(on)).startsAt });
    expect((await yard.placeOf(on)).bayId).toBe(bay);
  });

  it('are offered what saves more than its change costs, and not what does not', async () => {
    await open('by-hand', { bays: 1 });
    const { frontDesk } = yard.shop;
    const bay = yard.bays[0] ?? '';
    const look = async () => {
      const asked = await frontDesk.post('/plan/runs', { improve: true }).expect(201);
      await yard.settles();
      return (await frontDesk.get(`/plan/runs/${asked.body.id}`).expect(200)).body;
    };
    const loose = { isPinned: false };
    const little = await yard.work(100, at('13:00'));
    await assign(little, bay, yard.bram, '12:30', '14:00', loose).expect(201);
    // 10 minutes late: another start costs 30 and more.
    await yard.shop.sql('update work_orders set book_hundredths = 67 where id = $1', [little.workOrderId]);
    await frontDesk
      .patch(`/assignments/${(await yard.placeOf(little)).id}`, { endsAt: at('13:11'), ...loose }, '*')
      .expect(200);
    expect(await look()).toMatchObject({ outcome: 'unchanged', costBefore: { lateness: 11 } });
    const much = await yard.work(100, at('10:00'));
    await assign(much, bay, yard.bram, '15:00', '16:00', loose).expect(201);
    const better = await look();
    expect(better).toMatchObject({
      ...{ outcome: 'proposed', improve: true, costBefore: { lateness: 371 } },
      changes: [{ workOrderId: much.workOrderId, kind: 'changed', why: expect.any(String) }],
      promises: { kept: [], broken: [] },
    });
    expect(better.cost.lateness + better.cost.change).toBeLessThan(371);
    expect(await yard.placeOf(much)).toMatchObject({ startsAt: at('15:00'), version: 1 });
    await frontDesk.post(`/plan/runs/${better.id}/accept`).expect(200);
    const place = await yard.placeOf(much);
    expect(place.endsAt <= at('10:00')).toBe(true);
    expect(place).toMatchObject({ isPinned: false, version: 2 });
  });
});
