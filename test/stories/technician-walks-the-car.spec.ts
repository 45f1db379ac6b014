import { aCar, aSoldLine, aStay, aTemplate, type TemplateBody } from '../support/cars.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';
import request, { type Test } from 'supertest';

const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
const NOBODY = '0198a000-0000-7000-8000-000000000000';

interface Walk {
  readonly stayId: string;
  readonly id: string;
  readonly tread: string;
  readonly lamps: string;
  readonly hose: string;
  readonly joint: string;
}

describe('a technician walks the car', () => {
  let shop: ShopUnderTest;
  let template: TemplateBody;
  beforeAll(async () => {
    shop = await shopUnderTest();
    template = await aTemplate(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  async function begin(): Promise<Walk> {
    const stay = await aStay(shop, await aCar(shop));
    const started = await shop.technician
      .post(`/repair-orders/${stay.id}/inspections`, { templateId: template.id })
      .expect(201);
    const ids = new Map(
      template.stations.flatMap((s) => s.checkpoints).map((c) => [c.component, c.id] as const),
    );
    const of = (component: string): string => ids.get(component) ?? '';
    return {
      stayId: stay.id,
      id: started.body.id as string,
      tread: of('Tyre tread'),
      lamps: of('Lamps'),
      hose: of('Brake hose'),
      joint: of('Lower ball joint'),
    };
  }

  /** A PUT with If-Match only where a version is given. */
  function see(
    walk: Walk,
    checkpoint: string,
    body: object,
    version?: number,
    who: Person = shop.technician,
  ): Test {
    const put = request(`${shop.url}/api/v1`)
      .put(`/inspections/${walk.id}/observations/${checkpoint}`)
      .set('authorization', `Bearer ${who.token}`);
    return (version === undefined ? put : put.set('if-match', `"${version}"`)).send(body);
  }

  const walkOf = async (walk: Walk) => (await shop.frontDesk.get(`/inspections/${walk.id}`).expect(200)).body;
  const findings = async (walk: Walk) =>
    (await shop.frontDesk.get(`/repair-orders/${walk.stayId}/findings`).expect(200)).body.items;
  const bad = {
    verdict: 'repair',
    mayDrive: 'no',
    note: 'Cracked to the cords',
    consequence: 'It may burst.',
  };

  it('begins at the first station and sees what is still to be looked at', async () => {
    const walk = await begin();
    const body = await walkOf(walk);
    expect(body).toMatchObject({
      repairOrderId: walk.stayId,
      templateName: 'Short walk',
      edition: 1,
      technicianName: 'Bram',
      completedAt: null,
      progress: {
        total: 4,
        seen: 0,
        missing: [walk.tread, walk.lamps, walk.hose, walk.joint],
        isComplete: false,
      },
      version: 1,
    });
    expect(body.stations[0].checkpoints[0].observation).toBeNull();
  });

  it('records a sound part with the digits as they were read, and the limit that was used beside it', async () => {
    const walk = await begin();
    const seen = await see(walk, walk.tread, {
      verdict: 'sound',
      readings: [
        { name: 'outer groove', value: '4.0', unit: 'mm' },
        { name: 'inner groove', value: '3.50', unit: 'mm' },
      ],
    }).expect(200);
    expect(seen.headers['etag']).toBe('"1"');
    expect(seen.body).toMatchObject({
      checkpointId: walk.tread,
      verdict: 'sound',
      word: 'Sound',
      mayDrive: null,
      readings: [
        { name: 'outer groove', value: '4.0', unit: 'mm' },
        { name: 'inner groove', value: '3.50', unit: 'mm' },
      ],
      limitText: 'not less than 1.6 mm',
      limitSource: 'UK and EU rule, central three quarters',
      proposal: { verdict: 'sound', outcome: 'within' },
      findingId: null,
      observedByName: 'Bram',
      version: 1,
    });
    const body = await walkOf(walk);
    expect(body.progress).toMatchObject({ seen: 1, missing: [walk.lamps, walk.hose, walk.joint] });
    expect(body.stations[0].checkpoints[0].observation).toEqual(seen.body);
    expect(body.version).toBe(2);
  });

  // 2/32 in is 1.5875 mm (an inch is 25.4 mm exactly), so it is below a limit of 1.6 mm.
  it('is told what the limit proposes, and overrules it only with a reason', async () => {
    const walk = await begin();
    const thin = { readings: [{ value: '2', unit: 'in/32' }] };
    const silent = await see(walk, walk.tread, { verdict: 'sound', ...thin }).expect(422);
    expect(silent.body.code).toBe('observation-not-consistent');
    expect(pointers(silent.body)).toEqual(['/note']);
    const said = { verdict: 'sound', note: 'Measured on a stone scar; 3 mm beside it', ...thin };
    const overruled = await see(walk, walk.tread, said).expect(200);
    expect(overruled.body).toMatchObject({
      verdict: 'sound',
      proposal: { verdict: 'repair', outcome: 'beyond', limitText: 'not less than 1.6 mm' },
      readings: [{ name: 'tread', value: '2', unit: 'in/32' }],
    });
    const agreed = await see(walk, walk.tread, { verdict: 'repair', mayDrive: 'yes', ...thin }, 1).expect(
      200,
    );
    expect(agreed.body).toMatchObject({ word: 'Repair', version: 2 });
  });

  it('makes a finding of a bad part in the same breath, and keeps it in step', async () => {
    const walk = await begin();
    const seen = await see(walk, walk.hose, bad).expect(200);
    expect(seen.body).toMatchObject({ word: 'Unsafe', findingId: expect.any(String) as string });
    expect(await findings(walk)).toMatchObject([
      {
        id: seen.body.findingId,
        observationId: seen.body.id,
        title: 'Brake hose, front left',
        verdict: 'repair',
        word: 'Unsafe',
        mayDrive: 'no',
        explanation: 'Cracked to the cords',
        consequence: 'It may burst.',
        foundByName: 'Bram',
        lines: [],
        decision: null,
        version: 1,
      },
    ]);
    const watch = {
      verdict: 'watch',
      mayDrive: 'yes',
      lookAgainOn: '2026-09-01',
      note: 'Only chafed',
      title: 'Chafed hose',
    };
    await see(walk, walk.hose, watch, 1, shop.secondTechnician).expect(200);
    expect(await findings(walk)).toMatchObject([
      {
        id: seen.body.findingId,
        title: 'Chafed hose',
        word: 'Watch',
        explanation: 'Only chafed',
        consequence: null,
        lookAgainOn: '2026-09-01',
        version: 2,
      },
    ]);
    const [audit] = await shop.sql<{ detail: object }>(
      `select detail from audit_entries where action = 'observation.replace' and subject_id = $1`,
      [seen.body.id],
    );
    expect(audit?.detail).toMatchObject({ before: { verdict: 'repair' }, after: { verdict: 'watch' } });
  });

  it('leaves the desk’s wording alone where the technician changed nothing', async () => {
    const walk = await begin();
    const seen = await see(walk, walk.hose, bad).expect(200);
    const words = { title: 'Left front brake hose is cracked', explanation: 'The rubber has cracked open.' };
    await shop.manager.patch(`/findings/${seen.body.findingId}`, words, 1).expect(200);
    await see(walk, walk.hose, { ...bad, mayDrive: 'to-the-shop-only' }, 1).expect(200);
    expect(await findings(walk)).toMatchObject([{ ...words, mayDrive: 'to-the-shop-only', word: 'Repair' }]);
    await see(walk, walk.hose, { ...bad, note: 'Cords visible' }, 2).expect(200);
    expect(await findings(walk)).toMatchObject([{ title: words.title, explanation: 'Cords visible' }]);
  });

  it('withdraws the finding when the part turns out sound, and it comes back as the same one', async () => {
    const walk = await begin();
    const seen = await see(walk, walk.hose, bad).expect(200);
    const sound = await see(walk, walk.hose, { verdict: 'sound' }, 1).expect(200);
    expect(sound.body.findingId).toBeNull();
    expect(await findings(walk)).toEqual([]);
    const again = await see(walk, walk.hose, bad, 2).expect(200);
    expect(again.body.findingId).toBe(seen.body.findingId);
    expect(await findings(walk)).toHaveLength(1);
  });

  it('cannot turn a part sound whose finding a line answers', async () => {
    const walk = await begin();
    const seen = await see(walk, walk.hose, bad).expect(200);
    const { lineId } = await aSoldLine(shop, walk.stayId, {
      title: 'New hose',
      findingId: seen.body.findingId,
    });
    const refused = await see(walk, walk.hose, { verdict: 'sound' }, 1).expect(409);
    expect(refused.body).toMatchObject({ code: 'finding-in-use', lines: [{ lineId, title: 'New hose' }] });
    const body = await walkOf(walk);
    expect(body.stations[1].checkpoints[0].observation).toMatchObject({ verdict: 'repair', version: 1 });
    expect((await findings(walk))[0]).toMatchObject({ lines: [{ lineId, isSent: true, revisionNumber: 1 }] });
  });

  it('gets the same answer when the tablet sends the same again, and nothing moves', async () => {
    const walk = await begin();
    const first = await see(walk, walk.hose, bad).expect(200);
    const before = await walkOf(walk);
    shop.clock.passMinutes(5);
    const resent = await see(walk, walk.hose, bad).expect(200);
    expect(resent.body).toEqual(first.body);
    expect(resent.headers['etag']).toBe('"1"');
    await see(walk, walk.hose, { ...bad, unseenReason: null, readings: [] }, 7).expect(200, first.body);
    expect(await walkOf(walk)).toEqual(before);
    expect((await findings(walk))[0].version).toBe(1);
  });

  it('replaces only on the version that was read', async () => {
    const walk = await begin();
    await see(walk, walk.lamps, { verdict: 'sound' }, 1).expect(412);
    await see(walk, walk.lamps, { verdict: 'sound' }).expect(200);
    const other = { verdict: 'sound', note: 'Left indicator is dim' };
    const bare = await see(walk, walk.lamps, other).expect(428);
    expect(bare.body).toMatchObject({ code: 'version-needed', currentVersion: 1 });
    await see(walk, walk.lamps, other, 1).expect(200);
    const stale = await see(walk, walk.lamps, { verdict: 'sound', note: 'Fine' }, 1).expect(412);
    expect(stale.body).toMatchObject({ code: 'stale-version', currentVersion: 2 });
  });

  it('lets one of two tablets be first at a checkpoint', async () => {
    const walk = await begin();
    const both = await Promise.all([
      see(walk, walk.lamps, { verdict: 'sound', note: 'a' }),
      see(walk, walk.lamps, { verdict: 'sound', note: 'b' }, undefined, shop.secondTechnician),
    ]);
    expect(both.map((r) => r.status).sort()).toEqual([200, 428]);
    expect((await walkOf(walk)).version).toBe(2);
  });

  it('ends the walk when everything was looked at or has its reason, and it stays as it was', async () => {
    const walk = await begin();
    const complete = () => shop.technician.post(`/inspections/${walk.id}/complete`);
    await see(walk, walk.tread, { verdict: 'sound', readings: [{ value: '6.1', unit: 'mm' }] }).expect(200);
    const early = await complete().expect(409);
    expect(early.body).toMatchObject({
      code: 'inspection-incomplete',
      missing: [
        { checkpointId: walk.lamps, station: 'Around the car', title: 'Lamps' },
        { checkpointId: walk.hose, title: 'Brake hose, front left' },
        { checkpointId: walk.joint, station: 'Lift at knee height', title: 'Lower ball joint, front right' },
      ],
    });
    await see(walk, walk.lamps, { verdict: 'sound' }).expect(200);
    await see(walk, walk.hose, { verdict: 'unseen', unseenReason: 'Undertray bolts rusted' }).expect(200);
    await see(walk, walk.joint, { verdict: 'repair', mayDrive: 'to-the-shop-only' }).expect(200);
    const done = await complete().expect(200);
    expect(done.body).toMatchObject({
      completedAt: shop.clock.now().toISOString(),
      completedByName: 'Bram',
      progress: { seen: 4, missing: [], isComplete: true },
      version: 6,
    });
    expect((await complete().expect(200)).body).toEqual(done.body);
    const late = await see(walk, walk.lamps, { verdict: 'sound', note: 'dim' }, 1).expect(409);
    expect(late.body.code).toBe('inspection-completed');
    await see(walk, walk.lamps, { verdict: 'sound' }).expect(200); // a resend that was under way
    await expect(
      shop.sql(`update observations set note = 'x' where inspection_id = $1`, [walk.id]),
    ).rejects.toMatchObject({ constraint: 'inspections_completed_stays' });
    await expect(shop.sql('delete from readings')).rejects.toMatchObject({
      constraint: 'inspections_completed_stays',
    });
    const stay = await shop.frontDesk.get(`/repair-orders/${walk.stayId}`);
    expect(stay.body.stage).toBe('estimating');
  });

  it.each<[string, object, string[]]>([
    ['repair without a word about driving', { verdict: 'repair' }, ['/mayDrive']],
    ['watch without a time to look again', { verdict: 'watch', mayDrive: 'yes' }, ['/lookAgainOn']],
    [
      'watch that forbids driving',
      { verdict: 'watch', mayDrive: 'no', lookAgainOdometer: 160_000 },
      ['/mayDrive'],
    ],
    ['sound that forbids driving', { verdict: 'sound', mayDrive: 'no' }, ['/mayDrive']],
    ['unseen without a reason', { verdict: 'unseen' }, ['/unseenReason']],
    ['sound with a reason why it was unseen', { verdict: 'sound', unseenReason: 'dirt' }, ['/unseenReason']],
    [
      'a reading in volts of a tread',
      { verdict: 'sound', readings: [{ value: '12.4', unit: 'V' }] },
      ['/readings/0/unit'],
    ],
    [
      'a reading of what was unseen',
      { verdict: 'unseen', unseenReason: 'dirt', readings: [{ value: '4', unit: 'mm' }] },
      ['/readings'],
    ],
    [
      'two readings of one name',
      {
        verdict: 'sound',
        readings: [
          { value: '4', unit: 'mm' },
          { value: '5', unit: 'mm' },
        ],
      },
      ['/readings/1/name'],
    ],
  ])('refuses %s', async (_name, body, expected) => {
    const walk = await begin();
    const refused = await see(walk, walk.tread, body).expect(422);
    expect(refused.body.code).toBe('observation-not-consistent');
    expect(pointers(refused.body)).toEqual(expected);
    expect((await walkOf(walk)).version).toBe(1);
  });

  it.each<[string, object, string[]]>([
    ['no verdict', {}, ['/verdict']],
    ['a verdict of another trade', { verdict: 'red' }, ['/verdict']],
    [
      'a number that is a word',
      { verdict: 'sound', readings: [{ value: 'thin', unit: 'mm' }] },
      ['/readings/0/value'],
    ],
    ['a comma', { verdict: 'sound', readings: [{ value: '1,6', unit: 'mm' }] }, ['/readings/0/value']],
    [
      'a number that is no text',
      { verdict: 'sound', readings: [{ value: 4, unit: 'mm' }] },
      ['/readings/0/value'],
    ],
    ['readings that are no list', { verdict: 'sound', readings: 'none' }, ['/readings']],
    [
      'a day that does not exist',
      { verdict: 'watch', mayDrive: 'yes', lookAgainOn: '2026-06-31' },
      ['/lookAgainOn'],
    ],
    ['a colour', { verdict: 'sound', colour: 'green' }, ['/colour']],
  ])('refuses the shape of %s', async (_name, body, expected) => {
    const walk = await begin();
    const refused = await see(walk, walk.tread, body).expect(422);
    expect(refused.body.code).toBe('request-invalid');
    expect(pointers(refused.body)).toEqual(expected);
  });

  it('finds nothing under a wrong id, and a measured checkpoint only where it is on the walk', async () => {
    const walk = await begin();
    const other = await aTemplate(shop, 'Another walk');
    const foreign = other.stations[0]?.checkpoints[0]?.id ?? '';
    await see(walk, foreign, { verdict: 'sound' }).expect(404);
    await see(walk, NOBODY, { verdict: 'sound' }).expect(404);
    await see({ ...walk, id: NOBODY }, walk.lamps, { verdict: 'sound' }).expect(404);
    await shop.technician.post(`/inspections/${NOBODY}/complete`).expect(404);
    const start = (id: string, templateId: string) =>
      shop.technician.post(`/repair-orders/${id}/inspections`, { templateId });
    await start(walk.stayId, NOBODY).expect(404);
    await start(NOBODY, template.id).expect(404);
    await start(walk.stayId, 'x').expect(422);
    const unmeasured = await see(walk, walk.lamps, {
      verdict: 'sound',
      readings: [{ value: '4', unit: 'mm' }],
    });
    expect(pointers(unmeasured.body)).toEqual(['/readings/0/unit']);
  });

  it('is the floor’s to record; the desk reads, another shop finds nothing', async () => {
    const walk = await begin();
    await see(walk, walk.lamps, { verdict: 'sound' }, undefined, shop.frontDesk).expect(403);
    await shop.frontDesk.post(`/inspections/${walk.id}/complete`).expect(403);
    await request(`${shop.url}/api/v1`).get(`/inspections/${walk.id}`).expect(401);
    const yard = await shop.addShop('other-yard');
    const stranger = await yard.person('technician');
    await stranger.get(`/inspections/${walk.id}`).expect(404);
    await see(walk, walk.lamps, { verdict: 'sound' }, undefined, stranger).expect(404);
    await stranger.post(`/repair-orders/${walk.stayId}/inspections`, { templateId: template.id }).expect(404);
    await stranger.get(`/repair-orders/${walk.stayId}/findings`).expect(404);
  });

  it('does not begin on a car that has left', async () => {
    const walk = await begin();
    const odometer = { reading: 148_300, unit: 'km' };
    await shop.frontDesk.post(`/repair-orders/${walk.stayId}/pick-up`, { odometer }).expect(200);
    const start = await shop.technician
      .post(`/repair-orders/${walk.stayId}/inspections`, { templateId: template.id })
      .expect(409);
    expect(start.body.code).toBe('repair-order-closed');
    const late = await see(walk, walk.lamps, { verdict: 'sound' }).expect(409);
    expect(late.body.code).toBe('repair-order-closed');
  });
});
