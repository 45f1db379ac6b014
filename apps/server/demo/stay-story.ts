import { decideForOwner } from '../modules/approvals/index.js';
import { addContingency, addLine, loadOffer, priceOffer, sendRevision } from '../modules/estimates/index.js';
import { putObservation, recordFinding, startInspection } from '../modules/inspections/index.js';
import { openRepairOrder } from '../modules/repair-orders/index.js';
import { assignWorkOrder } from '../modules/scheduling/index.js';
import { addCustomer, addVehicle } from '../modules/vehicles/index.js';
import { receivePart, setEarlierWorkOrders } from '../modules/work-orders/index.js';
import type { Tx } from '../platform/database/tx.js';
import type { DemoScene } from './demo-scene.js';
import type { DemoItem, DemoLine, DemoSeen, DemoStay } from './demo-stay.js';
import { known, must } from './must.js';

interface WrittenLine {
  readonly id: string;
  readonly items: readonly { readonly id: string; readonly quantityHundredths: number }[];
}

/** One stay of a car as the people of the shop bring it forward, and what they need to remember of it. */
export class StayStory {
  private repairOrderId = '';
  private revisionId = '';
  private readonly lines = new Map<string, WrittenLine>();
  private readonly workOrders = new Map<string, string>();

  constructor(
    private readonly stay: DemoStay,
    private readonly scene: DemoScene,
  ) {}

  workOrderOf(title: string): string {
    return known(this.workOrders, title);
  }

  async dropOff(tx: Tx): Promise<void> {
    const { customer, vehicle, odometerKm, concern, promisedInHours } = this.stay;
    const { id: customerId } = must(await addCustomer(tx, customer));
    const { id: vehicleId } = must(await addVehicle(tx, { customerId, ...vehicle }));
    const opened = await openRepairOrder(tx, {
      vehicleId,
      concern,
      odometer: { reading: odometerKm, unit: 'km' },
      wantsPartsBack: false,
      ...(promisedInHours === undefined
        ? {}
        : { promisedAt: this.scene.ago(-60 * promisedInHours).toISOString() }),
    });
    this.repairOrderId = must(opened).id;
  }

  async walk(tx: Tx, { seen, stations }: NonNullable<DemoStay['walk']>): Promise<void> {
    const { templateId } = this.scene;
    const walk = must(await startInspection(tx, this.repairOrderId, { templateId }));
    for (const station of walk.stations.slice(0, stations))
      for (const { id, component, position, readingUnit } of station.checkpoints) {
        const said = seen.find(({ where }) => where === `${component}@${position}`);
        must(
          await putObservation(
            tx,
            { inspectionId: walk.id, checkpointId: id, version: undefined },
            said ? observed(said, readingUnit) : { verdict: 'sound' },
          ),
        );
      }
  }

  async send(tx: Tx, lines: readonly DemoLine[]): Promise<void> {
    for (const line of lines) this.lines.set(line.title, await this.write(tx, line));
    must(await sendRevision(tx, this.scene.tokens, this.revisionId, '*', undefined));
  }

  private async write(
    tx: Tx,
    { title, found, operation, items, contingencies = [], spread }: DemoLine,
  ): Promise<WrittenLine> {
    const findingIds = found
      ? [must(await recordFinding(tx, this.repairOrderId, { verdict: 'repair', ...found })).id]
      : [];
    const line = must(
      await addLine(tx, this.repairOrderId, {
        title,
        findingIds,
        operations: [
          { operationId: this.scene.operationId(operation.code), positions: [...operation.positions] },
        ],
        items: items.map((item) => this.ordered(item)),
        ...(spread === undefined ? {} : { spread }),
      }),
    );
    for (const { what, chancePpm, hundredths, capCents, items: extra } of contingencies)
      must(await addContingency(tx, line.id, { what, chancePpm, hundredths, capCents, items: [...extra] }));
    this.revisionId = line.revisionId;
    return line;
  }

  private ordered({ expectedTomorrowAt, ...item }: DemoItem) {
    if (expectedTomorrowAt === undefined) return item;
    return { ...item, expectedAt: this.scene.tomorrowAt(expectedTomorrowAt).toISOString() };
  }

  /** The owner answers on the telephone; the parts that are here are booked in, and the work gets its place. */
  async answer(tx: Tx, lines: readonly DemoLine[]): Promise<void> {
    const offer = must(await loadOffer(tx, this.revisionId));
    const answers = lines.map(({ title, owner }) => ({
      lineId: known(this.lines, title).id,
      answer: owner ?? 'approved',
    }));
    const agreed = lines.flatMap(({ contingencies = [] }) => contingencies.filter((one) => one.agreed));
    const contingencies = offer.contingencies
      .filter(({ what }) => agreed.some((one) => one.what === what))
      .map(({ id }) => ({ contingencyId: id, agreed: true }));
    const chosen = answers.filter(({ answer }) => answer === 'approved').map(({ lineId }) => lineId);
    const { customer } = this.stay;
    must(
      await decideForOwner(tx, this.revisionId, {
        answers,
        contingencies,
        shownSha256: offer.shownSha256 ?? '',
        expectedTotalCents: must(priceOffer(offer, chosen)).totals.totalCents,
        decidedBy: customer.displayName,
        channel: 'phone',
        numberCalled: customer.phone,
      }),
    );
    await this.rememberWork(tx);
    for (const line of lines.filter(({ owner }) => owner === 'approved')) await this.prepare(tx, line);
  }

  private async rememberWork(tx: Tx): Promise<void> {
    const released = await tx.rows<{ id: string; title: string }>(
      'select id, title from work_orders where shop_id = $1 and repair_order_id = $2',
      [tx.shopId, this.repairOrderId],
    );
    for (const { id, title } of released) this.workOrders.set(title, id);
  }

  private async prepare(tx: Tx, { title, items, work }: DemoLine): Promise<void> {
    const workOrderId = this.workOrderOf(title);
    const written = known(this.lines, title);
    for (const [at, { kind, expectedTomorrowAt }] of items.entries()) {
      const item = written.items[at];
      if (!item || kind !== 'part' || expectedTomorrowAt !== undefined) continue;
      must(await receivePart(tx, item.id, { quantityHundredths: item.quantityHundredths }));
    }
    if (work?.after !== undefined)
      must(await setEarlierWorkOrders(tx, workOrderId, '*', [this.workOrderOf(work.after)]));
    if (work?.place) {
      const { isPinned = false } = work.place;
      must(await assignWorkOrder(tx, { workOrderId, isPinned, ...this.scene.place(work.place) }));
    }
  }
}

type Observation = Parameters<typeof putObservation>[2];
type Unit = NonNullable<Observation['readings']>[number]['unit'];

function observed(said: DemoSeen, unit: string | null): Observation {
  const { reading, verdict, mayDrive, note, consequence, lookAgainOdometer } = said;
  return {
    verdict,
    mayDrive,
    note,
    consequence,
    ...(lookAgainOdometer === undefined ? {} : { lookAgainOdometer }),
    // The unit is the checkpoint's own, so it is one that the checkpoint takes.
    ...(reading === undefined ? {} : { readings: [{ value: reading, unit: unit as Unit }] }),
  };
}
