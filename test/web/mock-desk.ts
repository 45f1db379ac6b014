import type { ServerResponse } from 'node:http';
import { json, problem } from './mock-answers.js';
import { choicesOf, rangeOf } from './mock-choices.js';
import { at, id } from './mock-data.js';
import { estimateOf } from './mock-estimate.js';
import { DRAFT, ORDER, SENT } from './mock-ids.js';
import { type MockLine, contingency } from './mock-lines.js';
import { priced } from './mock-prices.js';
import type { Call, MockServer } from './mock-server.js';

/** What the desk's estimate asks for and does. */
export const orders = (mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, { items: mock.desk.orders, nextCursor: null });

const nothing = (response: ServerResponse): void =>
  problem(response, 404, { code: 'not-found', detail: 'There is no such repair order in this shop.' });

export function order(mock: MockServer, _call: Call, response: ServerResponse, which: string): void {
  if (which === ORDER) json(response, 200, mock.desk.order);
  else nothing(response);
}

export function estimate(mock: MockServer, _call: Call, response: ServerResponse, which: string): void {
  if (which === ORDER) json(response, 200, estimateOf(mock.desk));
  else nothing(response);
}

const chosenIn = (call: Call): string[] => (call.body.chosen as string[] | undefined) ?? [];

export function prices(mock: MockServer, call: Call, response: ServerResponse, revisionId: string): void {
  const lines =
    revisionId === SENT
      ? [{ ...(mock.desk.lines[0] as MockLine), id: id(3, 900), own: 80, shared: 0, items: [] }]
      : mock.desk.lines;
  json(response, 200, { revisionId, ...priced(lines, chosenIn(call)) });
}

export const ranges = (mock: MockServer, call: Call, response: ServerResponse): void =>
  json(response, 200, rangeOf(mock.desk, chosenIn(call)));

export function choices(mock: MockServer, call: Call, response: ServerResponse): void {
  const budget = typeof call.body.budgetCents === 'number' ? call.body.budgetCents : null;
  json(response, 200, { ...choicesOf(mock.desk, budget), revisionId: call.body.revisionId ?? DRAFT });
}

let added = 100;

export function addLine(mock: MockServer, call: Call, response: ServerResponse): void {
  const [template] = mock.desk.lines;
  if (!template) {
    nothing(response);
    return;
  }
  added += 1;
  mock.desk.lines.push({
    ...template,
    id: id(3, added),
    title: String(call.body.title),
    word: null,
    explanation: (call.body.explanation as string | null | undefined) ?? null,
    consequence: null,
    contingencies: [],
    items: [],
    operations: [],
    shared: 0,
    own: 100,
    benefit: 50,
  });
  mock.desk.draftVersion += 1;
  json(response, 201, { id: id(3, added), revisionId: DRAFT, version: mock.desk.draftVersion });
}

/** Changes and takings-out carry the version that was looked at. */
function isStale(mock: MockServer, call: Call, response: ServerResponse): boolean {
  const stale = call.headers['if-match'] !== `"${mock.desk.draftVersion}"`;
  if (stale)
    problem(response, 412, { code: 'version-stale', detail: 'Somebody changed it since it was read.' });
  return stale;
}

export function changeLine(mock: MockServer, call: Call, response: ServerResponse, lineId: string): void {
  if (isStale(mock, call, response)) return;
  const line = mock.desk.lines.find((one) => one.id === lineId);
  if (!line) {
    nothing(response);
    return;
  }
  line.title = String(call.body.title);
  mock.desk.draftVersion += 1;
  json(response, 200, { id: lineId, version: mock.desk.draftVersion });
}

export function removeLine(mock: MockServer, call: Call, response: ServerResponse, lineId: string): void {
  if (isStale(mock, call, response)) return;
  mock.desk.lines = mock.desk.lines.filter((one) => one.id !== lineId);
  mock.desk.draftVersion += 1;
  response.writeHead(204).end();
}

export function addContingency(mock: MockServer, call: Call, response: ServerResponse, lineId: string): void {
  const line = mock.desk.lines.find((one) => one.id === lineId);
  if (!line) {
    nothing(response);
    return;
  }
  const { what, chancePpm, hundredths, capCents } = call.body as Record<string, number> & { what: string };
  added += 1;
  line.contingencies = [
    ...(line.contingencies ?? []),
    contingency(added, lineId, {
      what,
      chancePpm: chancePpm ?? 0,
      hundredths: hundredths ?? 0,
      capCents: capCents ?? 0,
    }),
  ];
  mock.desk.draftVersion += 1;
  json(response, 201, { id: id(4, added) });
}

export const operations = (_mock: MockServer, call: Call, response: ServerResponse): void => {
  const q = (new URLSearchParams(call.path.split('?')[1]).get('q') ?? '').toLowerCase();
  const all = ['Wiper blades', 'Wheel bearing', 'Water pump'].map((name, n) => ({
    id: id(3, 800 + n),
    code: `OP-${n}`,
    name,
    needsLift: n > 0,
    bayKinds: [],
    skills: [],
    cautions: [],
    tools: [],
    steps: [{ stepId: id(3, 850 + n), code: 'S', name, at: 'chosen', hundredths: 40 + 60 * n }],
    isActive: true,
    version: 1,
  }));
  json(response, 200, { items: all.filter((one) => one.name.toLowerCase().includes(q)), nextCursor: null });
};

export const findings = (_mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, { items: [] });

export const labourRates = (_mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, {
    items: [
      { id: id(4, 1), name: 'General', centsPerHour: 9600, isDefault: true, isActive: true, version: 1 },
    ],
  });

export function discount(mock: MockServer, call: Call, response: ServerResponse): void {
  if (isStale(mock, call, response)) return;
  mock.desk.draftVersion += 1;
  json(response, 200, { id: DRAFT, version: mock.desk.draftVersion });
}

export const vehicle = (_mock: MockServer, _call: Call, response: ServerResponse): void =>
  json(response, 200, { id: id(7, 1), version: 2 });

export function changeVehicle(mock: MockServer, call: Call, response: ServerResponse): void {
  mock.desk.valueCents = call.body.valueCents as number | null;
  json(response, 200, { id: id(7, 1), version: 3 });
}

export function send(mock: MockServer, _call: Call, response: ServerResponse): void {
  mock.desk.sent = true;
  mock.desk.draftVersion += 1;
  json(response, 200, {
    revision: estimateOf(mock.desk).revisions[1],
    link: {
      id: id(6, 50),
      revisionId: DRAFT,
      revisionNumber: 2,
      state: 'open',
      madeAt: at('10:42'),
      madeBy: 'Nell Farrow',
      expiresAt: at('18:00'),
      revokedAt: null,
      firstOpenedAt: null,
      url: 'https://garage.example/o/tamarind/AbCdEf123456',
    },
  });
}
