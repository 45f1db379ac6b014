import pg from 'pg';
import { newId } from '#server/platform/ids';
import { testServer } from '../support/database.js';
import { aCar, aSoldLine, aStay, aWorkOrder } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

/** Whatever a use case forgets, the database keeps the records of one repair order together. */
describe('records of two repair orders', () => {
  let shop: ShopUnderTest;
  let mine: string;
  let theirs: string;
  beforeAll(async () => {
    shop = await shopUnderTest();
    mine = (await aStay(shop, await aCar(shop))).id;
    theirs = (await aStay(shop, await aCar(shop))).id;
  });
  afterAll(async () => {
    await shop.stop();
  });

  /** The constraint that refused the statement, or how many rows it touched. */
  const refusal = async (text: string, values: unknown[]): Promise<string> => {
    try {
      return `${(await shop.sql(`with done as (${text} returning 1) select * from done`, values)).length} rows`;
    } catch (error) {
      return (error as { constraint?: string }).constraint ?? String(error);
    }
  };
  /** A copy of a row with some columns different. */
  const copy = (table: string, id: string, over: object): Promise<string> =>
    refusal(`insert into ${table} select (jsonb_populate_record(t, $2)).* from ${table} t where id = $1`, [
      id,
      JSON.stringify({ id: newId(), ...over }),
    ]);
  const revisionOf = async (lineId: string): Promise<string> =>
    (await shop.sql<{ id: string }>('select revision_id as id from lines where id = $1', [lineId]))[0]?.id ??
    '';
  const draftOn = async (repairOrderId: string): Promise<string> => {
    const id = newId();
    await shop.sql(
      `insert into revisions (shop_id, id, repair_order_id, number, version)
       select $1, $2, $3, coalesce(max(number), 0) + 1, 1 from revisions where repair_order_id = $3`,
      [shop.shopId, id, repairOrderId],
    );
    return id;
  };
  const dropDraft = (id: string): Promise<unknown> => shop.sql('delete from revisions where id = $1', [id]);

  it('a line belongs to a revision of its own repair order', async () => {
    const { lineId } = await aSoldLine(shop, mine);
    const draft = await draftOn(theirs);
    expect(await copy('lines', lineId, { revision_id: draft })).toBe('lines_revision');
    expect(await copy('lines', lineId, { revision_id: draft, repair_order_id: theirs })).toBe('1 rows');
    await shop.sql('delete from lines where revision_id = $1', [draft]);
    await dropDraft(draft);
  });

  it('a decision is about a line, a revision and a link of its own repair order', async () => {
    const { lineId, decisionId } = await aSoldLine(shop, mine, { answer: 'declined' });
    const other = await aSoldLine(shop, theirs, { answer: 'declined' });
    const [revision, otherRevision] = [await revisionOf(lineId), await revisionOf(other.lineId)];
    expect(await copy('decisions', decisionId, { line_id: other.lineId, sequence: 2 })).toBe(
      'decisions_line',
    );
    expect(await copy('decisions', decisionId, { revision_id: otherRevision, sequence: 2 })).toBe(
      'decisions_revision',
    );
    const linkId = newId();
    const link = (id: string, repairOrderId: string, revisionId: string): Promise<string> =>
      refusal(
        `insert into approval_links (shop_id, id, repair_order_id, revision_id, token_hash, made_by, made_at, expires_at)
         values ($1, $2, $3, $4, $6, $5, now(), now())`,
        [shop.shopId, id, repairOrderId, revisionId, shop.frontDesk.staffId, id],
      );
    expect(await link(newId(), mine, otherRevision)).toBe('approval_links_revision');
    expect(await link(linkId, theirs, otherRevision)).toBe('1 rows');
    const byLink = { channel: 'link', link_id: linkId, recorded_by: null, sequence: 2 };
    expect(await copy('decisions', decisionId, byLink)).toBe('decisions_link');
    const ownLink = newId();
    await link(ownLink, mine, revision);
    expect(await copy('decisions', decisionId, { ...byLink, link_id: ownLink })).toBe('1 rows');
  });

  it('a work order does a line of its own repair order, and what is found under way is found on the same car', async () => {
    const { workOrderId } = await aWorkOrder(shop, mine);
    const sold = await aSoldLine(shop, theirs, { answer: 'approved' });
    const over = { line_id: sold.lineId, decision_id: sold.decisionId, number: 9001 };
    expect(await copy('work_orders', workOrderId, over)).toBe('work_orders_line');
    expect(await copy('work_orders', workOrderId, { ...over, repair_order_id: theirs })).toBe('1 rows');
    const finding = {
      title: 'Torn boot',
      verdict: 'repair',
      mayDrive: 'yes',
      explanation: 'x',
      consequence: 'y',
    };
    const found = (await shop.technician.post(`/repair-orders/${mine}/findings`, finding).expect(201)).body
      .id as string;
    expect(await copy('findings', found, { work_order_id: workOrderId })).toBe('1 rows');
    const [car] = await shop.sql<{ id: string }>('select vehicle_id as id from repair_orders where id = $1', [
      theirs,
    ]);
    const moved = { repair_order_id: theirs, vehicle_id: car?.id };
    expect(await copy('findings', found, { ...moved, work_order_id: workOrderId })).toBe(
      'findings_work_order',
    );
    expect(await copy('findings', found, { ...moved, repair_order_id: mine })).toBe('findings_vehicle');
    const [read] = await shop.sql<{ id: string }>(
      'select id from odometer_readings where repair_order_id = $1',
      [mine],
    );
    expect(await copy('odometer_readings', read?.id ?? '', moved)).toBe('1 rows');
    expect(await copy('odometer_readings', read?.id ?? '', { repair_order_id: theirs })).toBe(
      'odometer_readings_repair_order',
    );
  });

  it('nothing is moved into a revision that was sent, nor out of it', async () => {
    const sold = await aSoldLine(shop, mine);
    const sent = await revisionOf(sold.lineId);
    const draft = await draftOn(mine);
    expect(await copy('lines', sold.lineId, { revision_id: draft, sequence: 7 })).toBe('1 rows');
    const into = 'update lines set revision_id = $1, sequence = 9 where revision_id = $2';
    expect(await refusal(into, [sent, draft])).toBe('revisions_sent_stays');
    expect(await refusal(into, [draft, sent])).toBe('revisions_sent_stays');
    await shop.sql('delete from lines where revision_id = $1', [draft]);
    await dropDraft(draft);
  });

  it('a line written at the moment of sending is either in what was sent or refused', async () => {
    const sold = await aSoldLine(shop, mine);
    const draft = await draftOn(mine);
    const [{ name } = { name: '' }] = await shop.sql<{ name: string }>('select current_database() as name');
    const sender = new pg.Client({ ...testServer(), database: name });
    await sender.connect();
    await sender.query('begin');
    await sender.query(
      `update revisions set sent_at = now(), sent_by = $2, valid_until = now(), shown = '{}', shown_sha256 = 'x', total_cents = 1
        where id = $1`,
      [draft, shop.frontDesk.staffId],
    );
    const late = copy('lines', sold.lineId, { revision_id: draft, sequence: 8 });
    await new Promise((resolve) => setTimeout(resolve, 200));
    await sender.query('commit');
    await sender.end();
    expect(await late).toBe('revisions_sent_stays');
  });
});
