import { aCar, aStay } from '../support/cars.js';
import type { Person, ShopUnderTest } from '../support/shop-under-test.js';

export interface LineBody {
  readonly id: string;
  readonly revisionId: string;
  readonly version: number;
  readonly title: string;
  readonly alone: { readonly totalCents: number; readonly hundredths: number };
  readonly together: { readonly totalCents: number; readonly hundredths: number };
}

export interface FindingBody {
  readonly id: string;
  readonly title: string;
}

/** Hours of the steps, in hundredths; worked examples in the stories are made of them by hand. */
const STEPS = { WHEEL: 40, PADS: 80, STRUT: 150, HOSE: 50, BLEED: 60, ALIGN: 100 } as const;
type Step = keyof typeof STEPS;

const OPERATIONS = {
  BRAKES: { WHEEL: 'corner', PADS: 'axle', BLEED: 'vehicle' },
  STRUTS: { WHEEL: 'corner', STRUT: 'corner', ALIGN: 'vehicle' },
  HOSE: { WHEEL: 'corner', HOSE: 'chosen', BLEED: 'vehicle' },
} as const satisfies Record<string, Partial<Record<Step, string>>>;
type Operation = keyof typeof OPERATIONS;

const part = (name: string, quantityHundredths: number, unitPriceCents: number): object => ({
  kind: 'part',
  name,
  partNumber: null,
  condition: 'new',
  source: 'supplier',
  quantityHundredths,
  unitPriceCents,
  unitCostCents: Math.floor(unitPriceCents / 2),
});

/**
 * Brakes, struts and a hose of one car; all three take a front wheel off, two bleed the brakes. At 129.50 an hour, 6 % of
 * supplies up to 35.00 and 7.25 % tax on parts, fluids and supplies. By hand, alone:
 * brakes 2.20 h 284.90 + parts 227.90 + supplies 17.09 + tax 17.76 = 547.65;
 * struts 4.80 h 621.60 + parts 290.00 + supplies 35.00 + tax 23.56 = 970.16;
 * hose 1.50 h 194.25 + parts 34.00 + supplies 11.66 + tax 3.31 = 243.22; all three 6.70 h = 1497.10.
 */
export const LINES = {
  brakes: {
    operation: 'BRAKES',
    positions: ['front'],
    title: 'Front brake pads and discs',
    mayDrive: 'no',
    why: 'The pads are down to the metal on the inner side.',
    wait: 'The discs are cut up and the way to a stop gets longer every day.',
    items: [
      part('Brake pads, set', 100, 8990),
      part('Brake disc', 200, 6450),
      { kind: 'fluid', name: 'Brake fluid, litre', quantityHundredths: 50, unitPriceCents: 1800 },
    ],
  },
  struts: {
    operation: 'STRUTS',
    positions: ['front'],
    title: 'Front struts, both sides',
    mayDrive: 'yes',
    why: 'Both struts have leaked dry and the car floats over bumps.',
    wait: 'Tyres wear unevenly; longer distances to stop on a rough road.',
    items: [part('Strut', 200, 14_500)],
  },
  hose: {
    operation: 'HOSE',
    positions: ['front-left'],
    title: 'Brake hose, front left',
    mayDrive: 'to-the-shop-only',
    why: 'The hose is cracked down to the cords.',
    wait: 'It may burst under hard braking.',
    items: [part('Brake hose', 100, 3400)],
  },
} as const satisfies Record<string, { operation: Operation; [key: string]: unknown }>;
export type LineName = keyof typeof LINES;

export interface SentBody {
  readonly revision: { readonly id: string; readonly shownSha256: string; readonly version: number };
  readonly link: { readonly id: string; readonly url: string };
  readonly token: string;
}

/** What a front desk does until the owner has a link, through the API. */
export class EstimateBuilder {
  private readonly operations = new Map<Operation, string>();

  private constructor(readonly shop: ShopUnderTest) {}

  static async withCatalogue(shop: ShopUnderTest): Promise<EstimateBuilder> {
    const made = new EstimateBuilder(shop);
    const ids = new Map<string, string>();
    for (const [code, hundredths] of Object.entries(STEPS)) {
      const step = await shop.manager
        .post('/steps', { code, name: code.toLowerCase(), hundredths })
        .expect(201);
      ids.set(code, step.body.id as string);
    }
    for (const [code, steps] of Object.entries(OPERATIONS)) {
      const operation = await shop.manager
        .post('/operations', {
          code,
          name: code.toLowerCase(),
          needsLift: true,
          bayKinds: ['lift'],
          skills: [],
          cautions: [],
          toolIds: [],
          steps: Object.entries(steps).map(([step, at]) => ({ stepId: ids.get(step), at })),
        })
        .expect(201);
      made.operations.set(code as Operation, operation.body.id as string);
    }
    return made;
  }

  operationId(code: Operation): string {
    return this.operations.get(code) ?? '';
  }

  async stay(): Promise<string> {
    const car = await aCar(this.shop);
    return (await aStay(this.shop, car)).id;
  }

  async finding(repairOrderId: string, name: LineName): Promise<FindingBody> {
    const { title, mayDrive, why, wait } = LINES[name];
    const made = await this.shop.technician
      .post(`/repair-orders/${repairOrderId}/findings`, {
        title,
        verdict: 'repair',
        mayDrive,
        explanation: why,
        consequence: wait,
      })
      .expect(201);
    return made.body as FindingBody;
  }

  /** A line as it is asked for; `over` changes the request. */
  request(name: LineName, over: object = {}): Record<string, unknown> {
    const { operation, positions, items } = LINES[name];
    return { operations: [{ operationId: this.operationId(operation), positions }], items, ...over };
  }

  async line(repairOrderId: string, name: LineName, over: object = {}, by?: Person): Promise<LineBody> {
    const finding = await this.finding(repairOrderId, name);
    const made = await (by ?? this.shop.frontDesk)
      .post(
        `/repair-orders/${repairOrderId}/lines`,
        this.request(name, { findingIds: [finding.id], ...over }),
      )
      .expect(201);
    return made.body as LineBody;
  }

  async send(revisionId: string, body: object = {}): Promise<SentBody> {
    const sent = await this.shop.frontDesk.post(`/revisions/${revisionId}/send`, body).expect(200);
    return { ...sent.body, token: sent.body.link.url.split('/o/')[1] } as SentBody;
  }

  /** A repair order with these lines in a revision that was sent. */
  async sent(
    ...names: LineName[]
  ): Promise<SentBody & { repairOrderId: string; lines: Record<LineName, string>; revisionId: string }> {
    const repairOrderId = await this.stay();
    return { repairOrderId, ...(await this.sentOn(repairOrderId, ...names)) };
  }

  async sentOn(
    repairOrderId: string,
    ...names: LineName[]
  ): Promise<SentBody & { lines: Record<LineName, string>; revisionId: string }> {
    const lines = { brakes: '', struts: '', hose: '' };
    let revisionId = '';
    for (const name of names) {
      const line = await this.line(repairOrderId, name);
      lines[name] = line.id;
      revisionId = line.revisionId;
    }
    return { lines, revisionId, ...(await this.send(revisionId)) };
  }
}
