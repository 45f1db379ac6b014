import type { ServerResponse } from 'node:http';
import type { PlanRun, PlanSettings } from '../../apps/web/src/api/plan-types.js';
import { json, problem } from './mock-answers.js';
import { type MockAccount, NOW } from './mock-data.js';
import { proposalOf } from './mock-plan.js';
import type { Handler } from './mock-routes.js';
import type { Call, MockServer } from './mock-server.js';

/** What the page of the plan asks for and does. */
export const plan = (mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, mock.planning.plan);

export const runs = (mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, {
    items: mock.planning.runs.map((run) => ({ ...run, changes: undefined })),
    nextCursor: null,
  });

const runWith = (mock: MockServer, id: string): PlanRun | undefined =>
  mock.planning.runs.find((run) => run.id === id);

export function run(mock: MockServer, _call: Call, response: ServerResponse, id: string): void {
  const found = runWith(mock, id);
  if (found) json(response, 200, found);
  else problem(response, 404, { code: 'not-found', detail: 'There is no such run.' });
}

export const decide =
  (decision: 'accepted' | 'rejected'): Handler =>
  (mock, _call, response, id, who) => {
    const found = runWith(mock, id);
    if (!found || mock.planning.plan.openProposalId !== id) {
      problem(response, 409, { code: 'plan-run-state', detail: 'This proposal has been answered.' });
      return;
    }
    Object.assign(found, { decision, decidedAt: NOW, decidedBy: who && nameOf(who) });
    mock.planning.plan.openProposalId = null;
    if (decision === 'accepted') {
      mock.planning.plan.late = mock.planning.plan.late.filter(({ number }) => number !== 1108);
      mock.planning.plan.notPlanned = mock.planning.plan.notPlanned.filter(({ number }) => number !== 2501);
    }
    json(response, 200, found);
    mock.emit('plan', 1, { planRunId: id });
  };

const nameOf = ({ id, displayName }: MockAccount) => ({ id, displayName });

/** A longer look: under way at first; the test says by `endLook` what came of it. */
export function look(
  mock: MockServer,
  call: Call,
  response: ServerResponse,
  _id: string,
  who?: MockAccount,
): void {
  const asked: PlanRun = {
    ...proposalOf(10 + mock.planning.runs.length),
    ...{ improve: call.body.improve === true, askedAt: NOW, askedBy: who ? nameOf(who) : null },
    ...{
      endedAt: null,
      outcome: null,
      changeCount: 0,
      changes: [],
      causes: [],
      cost: null,
      costBefore: null,
    },
    promises: { broken: [], kept: [] },
  };
  mock.planning.runs.unshift(asked);
  json(response, 201, asked);
}

export function endLook(mock: MockServer, outcome: 'unchanged' | 'proposed'): void {
  const [found] = mock.planning.runs;
  if (found?.outcome !== null) throw new Error('nobody has asked for a look');
  Object.assign(found, { outcome, endedAt: NOW });
  if (outcome === 'proposed') {
    Object.assign(found, { changes: proposalOf(1).changes, changeCount: 3 });
    mock.planning.plan.openProposalId = found.id;
  }
  mock.emit('plan', 1, { planRunId: found.id });
}

export const settings = (mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, mock.planning.settings);

export function setSettings(mock: MockServer, call: Call, response: ServerResponse): void {
  const { version } = mock.planning.settings;
  if (call.headers['if-match'] !== `"${version}"`) {
    problem(response, 412, { code: 'stale-version', detail: 'It was changed meanwhile.' });
    return;
  }
  mock.planning.settings = { ...(call.body as unknown as PlanSettings), version: version + 1 };
  mock.planning.plan.mode = mock.planning.settings.mode;
  json(response, 200, mock.planning.settings);
  mock.emit('plan-settings');
}

export const planningOf = (mock: MockServer, _call: Call, response: ServerResponse, id: string): void => {
  const leftOut = mock.planning.leftOut.has(id);
  json(response, 200, { workOrderId: id, leftOut, since: leftOut ? NOW : null, by: null });
};

export function setPlanning(mock: MockServer, call: Call, response: ServerResponse, id: string): void {
  const { plan: shown, leftOut } = mock.planning;
  const work = shown.planned.find((one) => one.workOrderId === id);
  if (call.body.leftOut === true && work) {
    leftOut.add(id);
    shown.planned = shown.planned.filter((one) => one !== work);
    const { workOrderId, number, title, repairOrderId } = work;
    shown.notPlanned.push({
      workOrderId,
      number,
      title,
      repairOrderId,
      why: 'Somebody took it out of the plan.',
    });
  } else leftOut.delete(id);
  planningOf(mock, call, response, id);
  mock.emit('work-order');
}

/** The pin of a place that the plan knows; a board's ticket is another matter. */
export function pin(mock: MockServer, call: Call, response: ServerResponse, id: string): boolean {
  const work = mock.planning.plan.planned.find((one) => one.assignmentId === id);
  if (!work || typeof call.body.isPinned !== 'boolean') return false;
  if (call.headers['if-match'] !== `"${work.version}"`) {
    problem(response, 412, { code: 'stale-version', detail: 'It was changed meanwhile.' });
    return true;
  }
  work.isPinned = call.body.isPinned;
  work.version += 1;
  const onBoard = mock.board.tickets.find(({ assignment }) => assignment?.id === id)?.assignment;
  if (onBoard) onBoard.version += 1;
  json(response, 200, {});
  mock.emit('assignment');
  return true;
}
