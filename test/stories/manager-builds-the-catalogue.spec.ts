import { aCar, aSoldLine, aStay } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
const NOBODY = '0198a000-0000-7000-8000-000000000000';

describe('the manager builds the catalogue', () => {
  let shop: ShopUnderTest;
  const steps = new Map<string, string>();
  const operations = new Map<string, string>();

  async function addStep(code: string, name: string, hundredths: number): Promise<void> {
    const made = await shop.manager.post('/steps', { code, name, hundredths }).expect(201);
    expect(made.body).toEqual({
      ...{ id: expect.any(String) as string, code, name, hundredths },
      ...{ rateId: null, version: 1 },
    });
    steps.set(code, made.body.id as string);
  }

  function bodyOf(code: string, name: string, places: Record<string, string>): Record<string, unknown> {
    return {
      code,
      name,
      needsLift: true,
      bayKinds: ['lift'],
      skills: ['brakes'],
      cautions: ['ASB-01'],
      toolIds: [],
      steps: Object.entries(places).map(([step, at]) => ({ stepId: steps.get(step), at })),
    };
  }

  async function addOperation(code: string, name: string, places: Record<string, string>): Promise<void> {
    const made = await shop.manager.post('/operations', bodyOf(code, name, places)).expect(201);
    operations.set(code, made.body.id as string);
  }

  beforeAll(async () => {
    shop = await shopUnderTest();
    await addStep('ON-LIFT', 'Set the car on the lift', 15);
    await addStep('WHEEL', 'Wheel off and on', 15);
    await addStep('PADS', 'Pads fitted', 40);
    await addStep('HOSE', 'Flexible hose replaced', 25);
    await addStep('BLEED', 'Brakes bled', 50);
    await addOperation('PADS', 'Front brake pads', { 'ON-LIFT': 'vehicle', WHEEL: 'corner', PADS: 'corner' });
    await addOperation('HOSE', 'Brake hose', {
      'ON-LIFT': 'vehicle',
      WHEEL: 'corner',
      HOSE: 'chosen',
      BLEED: 'vehicle',
    });
  });
  afterAll(async () => {
    await shop.stop();
  });

  it('reads an operation with its steps in the order of the work', async () => {
    const read = await shop.technician.get(`/operations/${operations.get('HOSE')}`).expect(200);
    expect(read.headers['etag']).toBe('"1"');
    expect(read.body).toMatchObject({ code: 'HOSE', needsLift: true, cautions: ['ASB-01'], isActive: true });
    expect(read.body.steps).toEqual([
      {
        stepId: steps.get('ON-LIFT'),
        code: 'ON-LIFT',
        name: 'Set the car on the lift',
        at: 'vehicle',
        hundredths: 15,
      },
      { stepId: steps.get('WHEEL'), code: 'WHEEL', name: 'Wheel off and on', at: 'corner', hundredths: 15 },
      {
        stepId: steps.get('HOSE'),
        code: 'HOSE',
        name: 'Flexible hose replaced',
        at: 'chosen',
        hundredths: 25,
      },
      { stepId: steps.get('BLEED'), code: 'BLEED', name: 'Brakes bled', at: 'vehicle', hundredths: 50 },
    ]);
  });

  it('finds by a part of the code or the name, and a percent sign is only a percent sign', async () => {
    const codes = async (path: string): Promise<string[]> =>
      (await shop.technician.get(path).expect(200)).body.items.map(
        (i: { code: string }) => i.code,
      ) as string[];
    expect(await codes('/steps?q=whee')).toEqual(['WHEEL']);
    expect(await codes('/steps?q=hose')).toEqual(['HOSE']);
    expect(await codes('/operations?q=brake')).toEqual(['HOSE', 'PADS']);
    expect(await codes('/operations?q=%25')).toEqual([]);
    expect(await codes('/steps?q=_')).toEqual([]);
  });

  it('turns pages without losing or repeating a step', async () => {
    const seen: string[] = [];
    let next: string | null = null;
    do {
      const cursor: string = next === null ? '' : `&cursor=${next}`;
      const page = await shop.manager.get(`/steps?limit=2${cursor}`).expect(200);
      seen.push(...(page.body.items as { code: string }[]).map((s) => s.code));
      next = page.body.nextCursor as string | null;
    } while (next !== null);
    expect(seen).toEqual(['BLEED', 'HOSE', 'ON-LIFT', 'PADS', 'WHEEL']);
    const forged = await shop.manager.get('/steps?cursor=abc').expect(422);
    expect(pointers(forged.body)).toEqual(['/cursor']);
    await shop.manager.get('/steps?limit=0').expect(422);
  });

  // Worked by hand from the steps above. Pads at both front corners: lift 15 + 2 wheels 30 + 2 × pads 80 = 125.
  // Hose at the front left: lift 15 + wheel 15 + hose 25 + bleed 50 = 105. In one visit the lift and the left wheel are
  // paid once: 125 + 105 − 30 = 200, and each of the two carries half of what they share.
  it('shows what two operations cost alone, together, and how the shared steps fall on them', async () => {
    const preview = await shop.frontDesk
      .post('/labour-previews', {
        operations: [
          { operationId: operations.get('PADS'), positions: ['front'] },
          { operationId: operations.get('HOSE'), positions: ['front-left'] },
        ],
      })
      .expect(200);
    expect(preview.body.togetherHundredths).toBe(200);
    expect(preview.body.operations).toMatchObject([
      { code: 'PADS', positions: ['front'], aloneHundredths: 125, shareHundredths: 110 },
      { code: 'HOSE', positions: ['front-left'], aloneHundredths: 105, shareHundredths: 90 },
    ]);
    const none = await shop.frontDesk.post('/labour-previews', { operations: [] }).expect(200);
    expect(none.body).toEqual({ operations: [], togetherHundredths: 0 });
    expect(
      await shop.sql(`select 1 from idempotency_keys where body::text like '%togetherHundredths%'`),
    ).toEqual([]);
  });

  it('changes the hours of a step for lines written from now on, not for those already written', async () => {
    await writtenLine();
    const changed = await shop.manager
      .patch(`/steps/${steps.get('WHEEL')}`, { hundredths: 20 }, 1)
      .expect(200);
    expect(changed.body).toMatchObject({ hundredths: 20, version: 2 });
    const kept = await shop.sql<{ hundredths: number }>('select hundredths from line_steps');
    expect(kept).toEqual([{ hundredths: 15 }]);
    const preview = await shop.frontDesk.post('/labour-previews', {
      operations: [{ operationId: operations.get('PADS'), positions: ['front-left'] }],
    });
    expect(preview.body.togetherHundredths).toBe(15 + 20 + 40);
    await shop.manager.patch(`/steps/${steps.get('WHEEL')}`, { hundredths: 25 }, 1).expect(412);
  });

  async function writtenLine(): Promise<void> {
    const stay = await aStay(shop, await aCar(shop));
    const { lineId } = await aSoldLine(shop, stay.id, { sent: false });
    await shop.sql(
      `insert into line_steps (shop_id, line_id, step_id, position, hundredths) values ($1, $2, $3, 'front-left', 15)`,
      [shop.shopId, lineId, steps.get('WHEEL')],
    );
  }

  it('changes an operation whole: steps, tools, cautions; an old version is refused', async () => {
    const tool = await shop.manager.post('/special-tools', { name: 'Flaring kit', units: 1 }).expect(201);
    const path = `/operations/${operations.get('HOSE')}`;
    const change = {
      cautions: ['WHEEL-01'],
      toolIds: [tool.body.id],
      steps: [{ stepId: steps.get('HOSE'), at: 'corner' }],
    };
    const changed = await shop.manager.patch(path, change, 1).expect(200);
    expect(changed.body).toMatchObject({
      cautions: ['WHEEL-01'],
      skills: ['brakes'],
      tools: [{ toolId: tool.body.id, name: 'Flaring kit' }],
      steps: [{ code: 'HOSE', at: 'corner' }],
      version: 2,
    });
    await shop.manager.patch(path, { name: 'x' }, 1).expect(412);
    await shop.manager.patch(path, { isActive: false }, 2).expect(200);
    const used = await shop.manager.get('/operations').expect(200);
    expect(used.body.items.map((o: { code: string }) => o.code)).toEqual(['PADS']);
    const all = await shop.manager.get('/operations?all=yes').expect(200);
    expect(all.body.items).toHaveLength(2);
  });

  it('lists the cautions with their sources, which defer to the maker', async () => {
    const { body } = await shop.technician.get('/cautions').expect(200);
    expect(body.defersTo).toContain("maker's procedure");
    expect(body.items.map((c: { id: string }) => c.id)).toContain('LIFT-01');
  });

  it('refuses a position where an operation has no place, with a pointer to it', async () => {
    const at = (positions: string[]): object => ({
      operations: [{ operationId: operations.get('PADS'), positions }],
    });
    const engine = await shop.frontDesk.post('/labour-previews', at(['engine'])).expect(422);
    expect(engine.body.code).toBe('position-not-possible');
    expect(pointers(engine.body)).toEqual(['/operations/0/positions']);
    await shop.frontDesk.post('/labour-previews', at([])).expect(422);
    const word = await shop.frontDesk.post('/labour-previews', at(['front-middle'])).expect(422);
    expect(word.body.code).toBe('request-invalid');
    await shop.frontDesk
      .post('/labour-previews', { operations: [{ operationId: NOBODY, positions: ['front'] }] })
      .expect(404);
  });

  it.each<[string, Record<string, unknown>, string[]]>([
    ['hours of nothing', { code: 'X', name: 'x', hundredths: 0 }, ['/hundredths']],
    ['hours with a fraction', { code: 'X', name: 'x', hundredths: 1.5 }, ['/hundredths']],
    ['a code with a space', { code: 'A B', name: 'x', hundredths: 1 }, ['/code']],
    ['nothing', {}, ['/code', '/name', '/hundredths']],
  ])('refuses a step with %s', async (_name, body, expected) => {
    const bad = await shop.manager.post('/steps', body).expect(422);
    expect(pointers(bad.body).sort()).toEqual([...expected].sort());
  });

  it('refuses an operation of things that are not there, and stores nothing of it', async () => {
    const good = bodyOf('NEW', 'New', { WHEEL: 'corner' });
    const cases: [object, string[]][] = [
      [{ steps: [] }, ['/steps']],
      [{ steps: [{ stepId: NOBODY, at: 'corner' }] }, ['/steps/0/stepId']],
      [
        { steps: [good['steps'], good['steps']].flat(), toolIds: [NOBODY] },
        ['/steps/1/stepId', '/toolIds/0'],
      ],
      [{ steps: [{ stepId: steps.get('WHEEL'), at: 'somewhere' }] }, ['/steps/0/at']],
      [{ cautions: ['LIFT-99'] }, ['/cautions']],
      [{ bayKinds: ['hoist'] }, ['/bayKinds']],
    ];
    for (const [change, expected] of cases) {
      const bad = await shop.manager.post('/operations', { ...good, ...change }).expect(422);
      expect(pointers(bad.body)).toEqual(expected);
    }
    expect(await shop.sql(`select 1 from operations where code = 'NEW'`)).toEqual([]);
    const taken = await shop.manager.post('/operations', { ...good, code: 'PADS' }).expect(409);
    expect(taken.body.code).toBe('code-taken');
    await shop.manager.post('/steps', { code: 'PADS', name: 'x', hundredths: 1 }).expect(409);
  });

  it('is the manager’s: others read it, other shops see nothing', async () => {
    await shop.technician.post('/steps', { code: 'Z', name: 'z', hundredths: 1 }).expect(403);
    await shop.frontDesk.patch(`/operations/${operations.get('PADS')}`, { name: 'z' }, 1).expect(403);
    const stranger = await (await shop.addShop('third-yard')).person('manager');
    expect((await stranger.get('/operations?all=yes')).body.items).toEqual([]);
    await stranger.get(`/operations/${operations.get('PADS')}`).expect(404);
    await stranger.patch(`/steps/${steps.get('PADS')}`, { name: 'z' }, 1).expect(404);
    const mine = { ...bodyOf('MINE', 'Mine', { PADS: 'corner' }) };
    expect(pointers((await stranger.post('/operations', mine).expect(422)).body)).toEqual([
      '/steps/0/stepId',
    ]);
  });
});
