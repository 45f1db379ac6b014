import type { ServerResponse } from 'node:http';
import type {
  AskWhatIf,
  WhatIf,
  WhatIfAlternative,
  WhatIfDifference,
  WhatIfFigure,
} from '../../apps/web/src/api/what-if-types.js';
import { json, problem } from './mock-answers.js';
import { type MockAccount, NOW, accounts, id } from './mock-data.js';
import type { Call, MockServer } from './mock-server.js';

const TOLD = ['lateHoursPerWeek', 'keptPercent', 'readyPerWeek', 'liftIdleHoursPerWeek'] as const;
type Four = readonly [number, number, number, number];

const figures = (values: Four): WhatIfFigure[] =>
  TOLD.map((figure, k) => ({ figure, hundredths: values[k] ?? 0 }));
const differences = (means: Four, reach: Four): WhatIfDifference[] =>
  TOLD.map((figure, k) => ({
    ...{ figure, hundredths: means[k] ?? 0 },
    low: (means[k] ?? 0) - (reach[k] ?? 0),
    high: (means[k] ?? 0) + (reach[k] ?? 0),
  }));

export const whatIfId = (n: number): string => id(8, n);
const ASKED = ['One more technician like Dov Marrec', 'One more bay like Middle'];

/** A technician who helps, and a lift that nobody would work at. */
const alternatives: WhatIfAlternative[] = [
  {
    name: ASKED[0] ?? '',
    figures: figures([4120, 9380, 3210, 1740]),
    differences: differences([-7240, 1250, 130, 210], [2110, 380, 90, 340]),
    advice: [],
  },
  {
    name: ASKED[1] ?? '',
    figures: figures([11010, 8150, 3085, 5420]),
    differences: differences([-350, 20, 5, 3890], [610, 95, 60, 150]),
    advice: [
      {
        code: 'technicians-scarcer',
        words: 'As it is, lifts are taken 58 % of the time, technicians work 91 % of theirs.',
      },
    ],
  },
];

/** A question that was answered. */
export function answered(n: number, over: Partial<WhatIf> = {}): WhatIf {
  return {
    id: whatIfId(n),
    state: 'answered',
    askedBy: { id: id(1, 2), displayName: 'Ines Okorie' },
    askedAt: NOW,
    endedAt: NOW,
    failedReason: null,
    weeks: 26,
    years: 5,
    asked: ASKED,
    basis: {
      ...{ source: 'history', repairOrders: 142, finishedWork: 310, from: NOW, to: NOW },
      assumed: ['Every week is the same: no holidays, no absences, nothing out of service.'],
    },
    base: figures([11360, 8130, 3080, 1530]),
    alternatives,
    ...over,
  };
}

export const whatIfs = (mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, { items: mock.whatIfs, nextCursor: null });

export function whatIf(mock: MockServer, _call: Call, response: ServerResponse, which: string): void {
  const found = mock.whatIfs.find((one) => one.id === which);
  if (found) json(response, 200, found);
  else problem(response, 404, { code: 'not-found', detail: 'There is no such question in this shop.' });
}

/** Asked and waiting; the test says when there is an answer. */
export function askWhatIf(
  mock: MockServer,
  call: Call,
  response: ServerResponse,
  _id: string,
  who?: MockAccount,
): void {
  const body = call.body as unknown as AskWhatIf;
  const asked = body.alternatives.map((_, k) => `Alternative ${k + 1}`);
  const waiting = answered(mock.whatIfs.length + 1, {
    ...{ state: 'waiting', endedAt: null, base: [], asked, weeks: body.weeks ?? 26, years: body.years ?? 5 },
    askedBy: { id: who?.id ?? '', displayName: who?.displayName ?? '' },
    alternatives: asked.map((name) => ({ name, figures: [], differences: [], advice: [] })),
  });
  mock.whatIfs.unshift(waiting);
  json(response, 201, waiting);
}

const things = (kind: number, names: readonly string[]) =>
  names.map((name, k) => ({ id: id(kind, k + 1), name, isActive: true }));

export const floorOf =
  (what: 'bays' | 'technicians' | 'tools') =>
  (_mock: MockServer, _call: Call, response: ServerResponse): void => {
    const items = {
      bays: things(2, ['Front left', 'Front right', 'Middle']),
      technicians: accounts
        .filter(({ role }) => role === 'technician')
        .map((one) => ({ ...one, isActive: true })),
      tools: things(9, ['Spring press']),
    }[what];
    json(response, 200, { items });
  };
