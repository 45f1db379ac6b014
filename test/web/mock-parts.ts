import type { ServerResponse } from 'node:http';
import type { PartNeed } from '../../apps/web/src/api/types.js';
import { json, problem } from './mock-answers.js';
import { type MockAccount, NOW, id, workOrderId } from './mock-data.js';
import type { Call, MockServer } from './mock-server.js';

const gasketSet = (): PartNeed => ({
  ...{ lineItemId: id(8, 1), lineId: id(8, 2), lineTitle: 'Head gasket', workOrderId: workOrderId(2472) },
  ...{ kind: 'part', name: 'gasket set', partNumber: 'GS-4410', condition: 'new', source: 'supplier' },
  ...{ neededHundredths: 100, receivedHundredths: 0, missingHundredths: 100 },
  ...{ expectedAt: '2031-03-13T09:00:00.000Z', isOverdue: false, told: null },
});

/** What has not come of the one work order that waits for a part. */
export const demoParts = (): PartNeed[] => [gasketSet()];

export const partNeeds = (mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, { items: mock.parts });

export function expectPart(
  mock: MockServer,
  call: Call,
  response: ServerResponse,
  lineItemId: string,
  who?: MockAccount,
): void {
  const need = mock.parts.find((one) => one.lineItemId === lineItemId);
  const { expectedAt } = call.body;
  if (!need || !who) {
    problem(response, 404, { code: 'not-found', detail: 'There is no such item.' });
    return;
  }
  if (typeof expectedAt === 'string' && expectedAt <= NOW) {
    problem(response, 422, {
      ...{ code: 'request-invalid', detail: 'That time has passed.' },
      fields: [{ pointer: '/expectedAt', detail: 'Give a time that is still to come.' }],
    });
    return;
  }
  need.expectedAt = typeof expectedAt === 'string' ? expectedAt : null;
  need.isOverdue = false;
  const { plan } = mock.planning;
  plan.overdueParts = plan.overdueParts.filter((part) => part.lineItemId !== lineItemId);
  need.told = { at: NOW, by: { id: who.id, displayName: who.displayName }, note: null };
  json(response, 201, { ...need.told, lineItemId });
}
