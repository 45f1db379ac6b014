import { fail, ok, type Result } from '#libs/kernel';
import { needsOfOperations, type OperationNeeds } from '#libs/schedule';
import type { Tx } from '../../../platform/database/tx.js';
import { WorkOrderRow } from '../data/work-order.entity.js';
import { WorkOrderToolRow } from '../data/work-order-tool.entity.js';

export interface ApprovedLine {
  readonly lineId: string;
  readonly repairOrderId: string;
  readonly decisionId: string;
}

interface LineAndDecision {
  title: string;
  answer: string;
  hundredths: number;
  operations: OperationNeeds[];
}

const FIRST_NUMBER = 1;

/** Called inside the transaction that records an approving decision: the line is on the floor or nothing is agreed. */
export async function releaseWorkOrder(
  tx: Tx,
  approved: ApprovedLine,
): Promise<Result<{ workOrderId: string; number: number }>> {
  const line = await lineAndDecision(tx, approved);
  if (line?.answer !== 'approved')
    return fail('work-not-authorised', 'Only a line that the owner approved is released to the floor.');
  const open = await tx.one<{ id: string; number: number }>(
    `select id, number from work_orders where shop_id = $1 and line_id = $2 and withdrawn_at is null for update`,
    [tx.shopId, approved.lineId],
  );
  return open ? follow(tx, open, approved.decisionId, line) : create(tx, approved, line);
}

async function lineAndDecision(tx: Tx, approved: ApprovedLine): Promise<LineAndDecision | undefined> {
  return tx.one<LineAndDecision>(
    `select l.title, d.answer, d.shown_hundredths as hundredths,
            (select coalesce(jsonb_agg(jsonb_build_object('needsLift', o.needs_lift, 'bayKinds', o.bay_kinds,
                      'skills', o.skills, 'cautions', o.cautions, 'toolIds',
                      (select coalesce(jsonb_agg(ot.tool_id), '[]') from operation_tools ot
                        where ot.shop_id = o.shop_id and ot.operation_id = o.id))), '[]')
               from line_operations lo join operations o on o.shop_id = lo.shop_id and o.id = lo.operation_id
              where lo.shop_id = l.shop_id and lo.line_id = l.id) as operations
       from lines l join decisions d on d.shop_id = l.shop_id and d.line_id = l.id
      where l.shop_id = $1 and l.id = $2 and l.repair_order_id = $3 and d.id = $4`,
    [tx.shopId, approved.lineId, approved.repairOrderId, approved.decisionId],
  );
}

/** The owner agreed anew (another figure): the same work order, with the hours that were shown last. */
async function follow(
  tx: Tx,
  open: { id: string; number: number },
  decisionId: string,
  line: LineAndDecision,
): Promise<Result<{ workOrderId: string; number: number }>> {
  await tx.em.query(
    `update work_orders set decision_id = $3, book_hundredths = $4 + (select coalesce(sum(t.hundredths), 0) from contingency_triggers t
            where t.shop_id = $1 and t.work_order_id = $2), version = version + 1 where shop_id = $1 and id = $2`,
    [tx.shopId, open.id, decisionId, line.hundredths],
  );
  await tx.audit('work-order.agreed-anew', 'work-order', open.id, { decisionId });
  tx.announce('work-order', { workOrderId: open.id });
  return ok({ workOrderId: open.id, number: open.number });
}

async function create(
  tx: Tx,
  { lineId, repairOrderId, decisionId }: ApprovedLine,
  line: LineAndDecision,
): Promise<Result<{ workOrderId: string; number: number }>> {
  const { toolIds, ...needs } = needsOfOperations(line.operations);
  const id = tx.newId();
  const number = await tx.nextNumber('work-order', FIRST_NUMBER);
  await tx.em.insert(WorkOrderRow, {
    shopId: tx.shopId,
    id,
    number,
    repairOrderId,
    lineId,
    decisionId,
    decisionAnswer: 'approved',
    title: line.title,
    bookHundredths: line.hundredths,
    needsLift: needs.needsLift,
    bayKinds: [...needs.bayKinds],
    skills: [...needs.skills],
    cautions: [...needs.cautions],
    releasedAt: tx.now,
    version: 1,
  });
  await tx.em.insert(
    WorkOrderToolRow,
    toolIds.map((toolId) => ({ shopId: tx.shopId, workOrderId: id, toolId })),
  );
  await tx.audit('work-order.release', 'work-order', id, { number, lineId, decisionId });
  tx.announce('work-order', { workOrderId: id, repairOrderId });
  return ok({ workOrderId: id, number });
}
