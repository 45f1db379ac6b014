import type { ServerResponse } from 'node:http';
import type { Assignment, Ticket } from '../../apps/web/src/api/types.js';
import { type MockAccount, NOW, accounts } from './mock-data.js';
import type { Handler } from './mock-routes.js';
import { json, problem } from './mock-answers.js';
import type { Call, MockServer } from './mock-server.js';

/** The board and what is done on it. */
let serial = 0;

export function board(mock: MockServer, call: Call, response: ServerResponse): void {
  const day = new URLSearchParams(call.path.split('?')[1]).get('day');
  if (day === mock.board.day) {
    json(response, 200, mock.board);
    return;
  }
  const shift = Date.parse(`${day ?? ''}T00:00:00Z`) - Date.parse(`${mock.board.day}T00:00:00Z`);
  const moved = (time: string): string => new Date(Date.parse(time) + shift).toISOString();
  const { dayStartsAt, dayEndsAt } = mock.board;
  json(response, 200, {
    ...mock.board,
    day,
    dayStartsAt: moved(dayStartsAt),
    dayEndsAt: moved(dayEndsAt),
    tickets: [],
  });
}

const ticketOf = (mock: MockServer, id: unknown): Ticket | undefined =>
  mock.board.tickets.find((one) => one.workOrderId === id);
const withAssignment = (mock: MockServer, id: string): Ticket | undefined =>
  mock.board.tickets.find((one) => one.assignment?.id === id);
const gone = (response: ServerResponse): void =>
  problem(response, 404, { code: 'not-found', detail: 'There is no such thing.' });

export function claim(
  mock: MockServer,
  _call: Call,
  response: ServerResponse,
  id: string,
  who?: MockAccount,
): void {
  const ticket = ticketOf(mock, id);
  if (!ticket || !who) {
    gone(response);
    return;
  }
  if (ticket.claim) {
    const holder = { id: ticket.claim.technicianId, displayName: ticket.claim.displayName };
    problem(response, 409, {
      code: 'work-order-claimed',
      detail: 'Somebody has claimed it.',
      holder,
      since: ticket.claim.claimedAt,
    });
    return;
  }
  ticket.claim = { technicianId: who.id, displayName: who.displayName, claimedAt: NOW };
  ticket.state = 'claimed';
  json(response, 201, ticket.claim);
  mock.emit('claim');
}

export function release(mock: MockServer, _call: Call, response: ServerResponse, id: string): void {
  const ticket = ticketOf(mock, id);
  if (!ticket) {
    gone(response);
    return;
  }
  ticket.claim = null;
  ticket.state = 'released';
  response.writeHead(204).end();
  mock.emit('claim');
}

export function clock(state: Ticket['state']): Handler {
  return (mock, call, response, id, who) => {
    const named = ticketOf(mock, id === '' ? call.body.workOrderId : id);
    const ticket =
      named ??
      mock.board.tickets.find((one) => one.state === 'on-the-clock' && one.claim?.technicianId === who?.id);
    if (!ticket) {
      gone(response);
      return;
    }
    ticket.state = state;
    json(response, 201, {});
    mock.emit('clock');
  };
}

function taken(mock: MockServer, wish: Assignment, workOrderId: string): Ticket | undefined {
  return mock.board.tickets.find(
    ({ assignment, workOrderId: other }) =>
      assignment?.bayId === wish.bayId &&
      other !== workOrderId &&
      assignment.startsAt < wish.endsAt &&
      wish.startsAt < assignment.endsAt,
  );
}

function place(
  mock: MockServer,
  ticket: Ticket,
  wish: Assignment,
  response: ServerResponse,
  status: number,
): void {
  const other = taken(mock, wish, ticket.workOrderId);
  if (other) {
    const bay = mock.board.bays.find((one) => one.id === wish.bayId);
    const detail = `Bay ${bay?.number ?? '?'} is taken by ${other.workOrderNumber} then. Choose another time or bay.`;
    problem(response, 409, { code: 'bay-taken', detail, workOrderId: other.workOrderId });
    return;
  }
  wish.technicianName = accounts.find((one) => one.id === wish.technicianId)?.displayName ?? '';
  ticket.assignment = wish;
  json(response, status, wish);
  mock.emit();
}

export function assign(mock: MockServer, call: Call, response: ServerResponse): void {
  const ticket = ticketOf(mock, call.body.workOrderId);
  if (!ticket) {
    gone(response);
    return;
  }
  serial += 1;
  place(
    mock,
    ticket,
    { ...(call.body as unknown as Assignment), id: `assignment-${serial}`, version: 1 },
    response,
    201,
  );
}

export function change(mock: MockServer, call: Call, response: ServerResponse, id: string): void {
  const ticket = withAssignment(mock, id);
  if (!ticket?.assignment) {
    gone(response);
    return;
  }
  if (call.headers['if-match'] !== `"${ticket.assignment.version}"`) {
    problem(response, 412, { code: 'stale-version', detail: 'It was changed meanwhile.' });
    return;
  }
  const wish = {
    ...ticket.assignment,
    ...(call.body as Partial<Assignment>),
    version: ticket.assignment.version + 1,
  };
  place(mock, ticket, wish, response, 200);
}

export function cancel(mock: MockServer, _call: Call, response: ServerResponse, id: string): void {
  const ticket = withAssignment(mock, id);
  if (!ticket) {
    gone(response);
    return;
  }
  ticket.assignment = null;
  response.writeHead(204).end();
  mock.emit();
}
