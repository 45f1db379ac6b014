import request, { type Response, type Test } from 'supertest';
import type { EstimateBuilder, SentBody } from './estimate.js';
import { png } from '../support/pictures.js';
import type { Person, ShopUnderTest } from '../support/shop-under-test.js';

export interface ContingencyBody {
  readonly id: string;
  readonly lineId: string;
  readonly revisionId: string;
  readonly version: number;
  readonly items: readonly { readonly id: string }[];
}

/**
 * What may happen on the brake hose of the estimate builder (1.50 h at 129.50, alone 243.22). By hand, once the hose is
 * agreed to: the nut 0.80 h 103.60 + pipe 24.80 + supplies 6 % of 297.85 less 11.66 = 6.21 + tax 7.25 % of 31.01 = 2.25,
 * together 136.86 of at most 150.00. The screw: 0.40 h 51.80 + 6.40 and more, of at most 20.00.
 */
export const NUT = {
  what: 'The line nut seizes on the hard pipe',
  chancePpm: 250_000,
  hundredths: 80,
  capCents: 15_000,
  items: [
    {
      kind: 'part',
      name: 'Brake pipe, made up',
      condition: 'new',
      source: 'stock',
      quantityHundredths: 100,
      unitPriceCents: 2480,
      unitCostCents: 900,
    },
  ],
} as const;
export const SCREW = {
  what: 'The bleed screw breaks off',
  chancePpm: 80_000,
  hundredths: 40,
  capCents: 2000,
  items: [
    {
      kind: 'part',
      name: 'Bleed screw',
      condition: 'new',
      source: 'stock',
      quantityHundredths: 100,
      unitPriceCents: 640,
    },
  ],
} as const;

export interface SentHose extends SentBody {
  readonly repairOrderId: string;
  readonly revisionId: string;
  readonly lineId: string;
  readonly nut: ContingencyBody;
  readonly screw: ContingencyBody;
}

export const HOSE_CENTS = 24_322;

/** What desk, owner and technician do about contingencies, through the API. */
export class ContingencyBuilder {
  constructor(
    private readonly shop: ShopUnderTest,
    private readonly estimate: EstimateBuilder,
  ) {}

  async add(lineId: string, body: object): Promise<ContingencyBody> {
    const made = await this.shop.frontDesk.post(`/lines/${lineId}/contingencies`, body).expect(201);
    return made.body as ContingencyBody;
  }

  /** A hose with two things that may happen, sent to the owner. */
  async sentHose(): Promise<SentHose> {
    const repairOrderId = await this.estimate.stay();
    const line = await this.estimate.line(repairOrderId, 'hose');
    const nut = await this.add(line.id, NUT);
    const screw = await this.add(line.id, SCREW);
    const sent = await this.estimate.send(line.revisionId);
    return { repairOrderId, revisionId: line.revisionId, lineId: line.id, nut, screw, ...sent };
  }

  /** The owner's answers by link; `total` is what is shown for the approved lines. */
  answer(
    hose: SentHose,
    over: { answers?: object[]; contingencies?: object[]; expectedTotalCents?: number } = {},
  ): Test {
    return request(this.shop.url)
      .post(`/api/v1/approval-links/${hose.token}/decisions`)
      .send({
        answers: [{ lineId: hose.lineId, answer: 'approved' }],
        shownSha256: hose.revision.shownSha256,
        expectedTotalCents: HOSE_CENTS,
        decidedBy: 'Ines Halloway',
        ...over,
      });
  }

  /** The owner says yes to the hose and to both caps. */
  async agreed(): Promise<SentHose> {
    const hose = await this.sentHose();
    await this.answer(hose, {
      contingencies: [
        { contingencyId: hose.nut.id, agreed: true },
        { contingencyId: hose.screw.id, agreed: true },
      ],
    }).expect(200);
    return hose;
  }

  async workOrderId(lineId: string): Promise<string> {
    const [work] = await this.shop.sql<{ id: string }>(
      'select id from work_orders where line_id = $1 and withdrawn_at is null',
      [lineId],
    );
    return work?.id ?? '';
  }

  /** The parts come in and somebody clocks on, for a while. */
  async begin(lineId: string, who: Person = this.shop.technician): Promise<string> {
    const items = await this.shop.sql<{ id: string; quantity: number }>(
      `select id, quantity_hundredths as quantity from line_items where line_id = $1 and kind = 'part'`,
      [lineId],
    );
    for (const { id, quantity } of items)
      await this.shop.frontDesk
        .post(`/line-items/${id}/receipts`, { quantityHundredths: quantity })
        .expect(201);
    const workOrderId = await this.workOrderId(lineId);
    await who.post('/clock/on', { workOrderId }).expect(201);
    this.shop.clock.passMinutes(30);
    return workOrderId;
  }

  /** Agreed to, and under way: off the clock again, still held. */
  async underWay(): Promise<SentHose & { workOrderId: string }> {
    const hose = await this.agreed();
    const workOrderId = await this.begin(hose.lineId);
    await this.shop.technician.post('/clock/off').expect(200);
    return { ...hose, workOrderId };
  }

  async sendPhoto(
    contingencyId: string,
    who: Person = this.shop.technician,
    colour = '#8a4b2f',
  ): Promise<Response> {
    const picture = await png({ colour });
    return request(`${this.shop.url}/api/v1`)
      .post(`/contingencies/${contingencyId}/photos`)
      .set('authorization', `Bearer ${who.token}`)
      .attach('photo', picture, { filename: 'nut.png', contentType: 'image/png' });
  }

  async photo(contingencyId: string, colour?: string): Promise<string> {
    const added = await this.sendPhoto(contingencyId, this.shop.technician, colour);
    if (added.status !== 201) throw new Error(`photo: ${added.status} ${added.text}`);
    return (added.body as { id: string }).id;
  }
}
