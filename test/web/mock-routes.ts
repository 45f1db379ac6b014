import type { ServerResponse } from 'node:http';
import { type MockAccount, accounts } from './mock-data.js';
import { about, enrol, people, refresh, signIn, signInWithPin } from './mock-doors.js';
import * as desk from './mock-desk.js';
import { assign, board, cancel, change, claim, clock, release } from './mock-floor.js';
import { problem } from './mock-answers.js';
import * as parts from './mock-parts.js';
import * as planning from './mock-planning.js';
import * as whatIf from './mock-what-if.js';
import type { Call, MockServer } from './mock-server.js';

/** What one request does; `id` is the one in its path. */
export type Handler = (
  mock: MockServer,
  call: Call,
  response: ServerResponse,
  id: string,
  who: MockAccount | undefined,
) => void;

interface Route {
  readonly match: RegExp;
  readonly open?: true;
  readonly handle: Handler;
}
const routes: readonly Route[] = [
  { match: /^GET \/about$/, open: true, handle: about },
  { match: /^POST \/sessions$/, open: true, handle: signIn },
  { match: /^POST \/sessions\/refresh$/, open: true, handle: refresh },
  { match: /^POST \/sessions\/pin$/, open: true, handle: signInWithPin },
  { match: /^GET \/devices\/current\/people$/, open: true, handle: people },
  {
    match: /^DELETE \/sessions\/current$/,
    open: true,
    handle: (_mock, _call, response) => response.writeHead(204).end(),
  },
  { match: /^POST \/devices$/, handle: enrol },
  { match: /^GET \/board$/, handle: board },
  { match: /^GET \/live$/, handle: (mock, _call, response) => mock.listen(response) },
  { match: /^POST \/work-orders\/([^/]+)\/claims$/, handle: claim },
  { match: /^DELETE \/work-orders\/([^/]+)\/claims\/current$/, handle: release },
  { match: /^POST \/work-orders\/([^/]+)\/finish$/, handle: clock('finished') },
  { match: /^POST \/clock\/on$/, handle: clock('on-the-clock') },
  { match: /^POST \/clock\/pause$/, handle: clock('paused') },
  { match: /^POST \/clock\/off$/, handle: clock('claimed') },
  { match: /^POST \/assignments$/, handle: assign },
  {
    match: /^PATCH \/assignments\/([^/]+)$/,
    handle: (mock, call, response, id) => {
      if (!planning.pin(mock, call, response, id)) change(mock, call, response, id);
    },
  },
  { match: /^GET \/plan$/, handle: planning.plan },
  { match: /^GET \/plan\/settings$/, handle: planning.settings },
  { match: /^PUT \/plan\/settings$/, handle: planning.setSettings },
  { match: /^GET \/plan\/runs$/, handle: planning.runs },
  { match: /^POST \/plan\/runs$/, handle: planning.look },
  { match: /^GET \/plan\/runs\/([^/]+)$/, handle: planning.run },
  { match: /^POST \/plan\/runs\/([^/]+)\/accept$/, handle: planning.decide('accepted') },
  { match: /^POST \/plan\/runs\/([^/]+)\/reject$/, handle: planning.decide('rejected') },
  { match: /^GET \/work-orders\/([^/]+)\/planning$/, handle: planning.planningOf },
  { match: /^PUT \/work-orders\/([^/]+)\/planning$/, handle: planning.setPlanning },
  { match: /^GET \/bays$/, handle: whatIf.floorOf('bays') },
  { match: /^GET \/technicians$/, handle: whatIf.floorOf('technicians') },
  { match: /^GET \/special-tools$/, handle: whatIf.floorOf('tools') },
  { match: /^GET \/what-ifs$/, handle: whatIf.whatIfs },
  { match: /^POST \/what-ifs$/, handle: whatIf.askWhatIf },
  { match: /^GET \/what-ifs\/([^/]+)$/, handle: whatIf.whatIf },
  { match: /^GET \/repair-orders$/, handle: desk.orders },
  { match: /^GET \/repair-orders\/([^/]+)$/, handle: desk.order },
  { match: /^GET \/repair-orders\/([^/]+)\/part-needs$/, handle: parts.partNeeds },
  { match: /^POST \/line-items\/([^/]+)\/expectations$/, handle: parts.expectPart },
  { match: /^GET \/repair-orders\/([^/]+)\/estimate$/, handle: desk.estimate },
  { match: /^GET \/repair-orders\/([^/]+)\/findings$/, handle: desk.findings },
  { match: /^GET \/labour-rates$/, handle: desk.labourRates },
  { match: /^GET \/operations$/, handle: desk.operations },
  { match: /^POST \/repair-orders\/([^/]+)\/choices$/, handle: desk.choices },
  { match: /^POST \/repair-orders\/([^/]+)\/lines$/, handle: desk.addLine },
  { match: /^PATCH \/lines\/([^/]+)$/, handle: desk.changeLine },
  { match: /^DELETE \/lines\/([^/]+)$/, handle: desk.removeLine },
  { match: /^POST \/lines\/([^/]+)\/contingencies$/, handle: desk.addContingency },
  { match: /^POST \/revisions\/([^/]+)\/prices$/, handle: desk.prices },
  { match: /^POST \/revisions\/([^/]+)\/ranges$/, handle: desk.ranges },
  { match: /^PUT \/revisions\/([^/]+)\/discount$/, handle: desk.discount },
  { match: /^GET \/vehicles\/([^/]+)$/, handle: desk.vehicle },
  { match: /^PATCH \/vehicles\/([^/]+)$/, handle: desk.changeVehicle },
  { match: /^POST \/revisions\/([^/]+)\/send$/, handle: desk.send },
  { match: /^DELETE \/assignments\/([^/]+)$/, handle: cancel },
];

export function answer(mock: MockServer, call: Call, path: string, response: ServerResponse): void {
  const line = `${call.method} ${path.replace('/api/v1', '')}`;
  const route = routes.find((one) => one.match.test(line));
  if (!route) {
    problem(response, 404, { code: 'not-found', detail: `No ${line} here.` });
    return;
  }
  const token = (call.headers.authorization ?? '').replace('Bearer ', '');
  const who = accounts.find((one) => one.id === mock.sessions.get(token));
  if (!route.open && !who) {
    problem(response, 401, { code: 'not-signed-in', detail: 'Sign in first.' });
    return;
  }
  route.handle(mock, call, response, route.match.exec(line)?.[1] ?? '', who);
}
