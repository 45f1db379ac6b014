/**
 * Stand-in until `npm run openapi` writes this file from apps/server/openapi.json. Only what the pages use.
 * Nothing imports its names except through `paths` (see types.ts), so that regenerating swaps it in.
 */
interface Json<T> {
  content: { 'application/json': T };
}
interface Problem {
  content: { 'application/problem+json': unknown };
}
interface Nothing {
  content?: never;
}
interface ById {
  path: { id: string };
}
interface StaffMember {
  id: string;
  displayName: string;
  roles: string[];
}
interface ShopFacts {
  id: string;
  name: string;
  timeZone: string;
  currency: string;
}
interface OpenedSession {
  accessToken: string;
  expiresInSeconds: number;
  staff: StaffMember;
  shop: ShopFacts;
}
interface ClaimFacts {
  technicianId: string;
  displayName: string;
  claimedAt: string;
}
interface AssignmentFacts {
  id: string;
  version: number;
  bayId: string;
  technicianId: string;
  technicianName: string;
  startsAt: string;
  endsAt: string;
}
interface BoardTicket {
  workOrderId: string;
  workOrderNumber: number;
  repairOrderId: string;
  repairOrderNumber: number;
  title: string;
  vehicle: { label: string; plate: string | null };
  bookHundredths: number;
  clockedSeconds: number;
  state: 'released' | 'claimed' | 'on-the-clock' | 'paused' | 'finished' | 'checked';
  holds: {
    kind: 'decision' | 'parts' | 'bay' | 'technician' | 'tool' | 'earlier-work-order' | 'sublet';
    detail: string;
  }[];
  canStart: boolean;
  claim: ClaimFacts | null;
  assignment: AssignmentFacts | null;
  unsafe: boolean;
  cautions: string[];
  promisedAt: string | null;
}
interface BoardReply {
  day: string;
  timeZone: string;
  now: string;
  dayStartsAt: string;
  dayEndsAt: string;
  lastEventId: string;
  bays: {
    id: string;
    number: number;
    name: string;
    kind: 'lift' | 'flat' | 'alignment';
    liftKind: string | null;
    capacityKg: number | null;
    outOfServiceReason: string | null;
    clockedOn: { technicianId: string; displayName: string; workOrderId: string }[];
  }[];
  technicians: { id: string; displayName: string; skills: string[] }[];
  tickets: BoardTicket[];
}

export interface paths {
  '/api/v1/about': {
    get: {
      responses: {
        200: Json<{
          name: string;
          version: string;
          production: boolean;
          demo: { accounts: { name: string; role: string; email: string; password: string }[] } | null;
        }>;
      };
    };
  };
  '/api/v1/sessions': {
    post: {
      requestBody: { content: { 'application/json': { email: string; password: string; shop?: string; delivery: 'cookie' } } };
      responses: { 201: Json<OpenedSession>; default: Problem };
    };
  };
  '/api/v1/sessions/refresh': {
    post: {
      requestBody: { content: { 'application/json': { delivery: 'cookie' } } };
      responses: { 201: Json<OpenedSession>; default: Problem };
    };
  };
  '/api/v1/sessions/pin': {
    post: {
      requestBody: { content: { 'application/json': { staffId: string; pin: string; delivery: 'cookie' } } };
      responses: { 201: Json<OpenedSession>; default: Problem };
    };
  };
  '/api/v1/sessions/current': {
    get: { responses: { 200: Json<{ staff: StaffMember; shop: ShopFacts }>; default: Problem } };
    delete: { responses: { 204: Nothing; default: Problem } };
  };
  '/api/v1/devices': {
    post: {
      requestBody: { content: { 'application/json': { name: string; bayId?: string } } };
      responses: { 201: Json<{ id: string; name: string; deviceToken: string }>; default: Problem };
    };
  };
  '/api/v1/devices/current/people': {
    get: { responses: { 200: Json<{ items: { id: string; displayName: string }[] }>; default: Problem } };
  };
  '/api/v1/board': {
    get: { parameters: { query: { day: string } }; responses: { 200: Json<BoardReply>; default: Problem } };
  };
  '/api/v1/work-orders/{id}/claims': {
    post: { parameters: ById; responses: { 201: Json<ClaimFacts>; default: Problem } };
  };
  '/api/v1/work-orders/{id}/claims/current': {
    delete: {
      parameters: ById;
      requestBody?: { content: { 'application/json': { reason?: string } } };
      responses: { 204: Nothing; default: Problem };
    };
  };
  '/api/v1/work-orders/{id}/finish': {
    post: { parameters: ById; responses: { 201: Json<unknown>; default: Problem } };
  };
  '/api/v1/clock/on': {
    post: {
      requestBody: { content: { 'application/json': { workOrderId: string } } };
      responses: { 201: Json<unknown>; default: Problem };
    };
  };
  '/api/v1/clock/off': { post: { responses: { 201: Json<unknown>; default: Problem } } };
  '/api/v1/clock/pause': {
    post: {
      requestBody: { content: { 'application/json': { reason: string } } };
      responses: { 201: Json<unknown>; default: Problem };
    };
  };
  '/api/v1/assignments': {
    post: {
      requestBody: {
        content: {
          'application/json': {
            workOrderId: string;
            bayId: string;
            technicianId: string;
            startsAt: string;
            endsAt: string;
          };
        };
      };
      responses: { 201: Json<AssignmentFacts>; default: Problem };
    };
  };
  '/api/v1/assignments/{id}': {
    patch: {
      parameters: ById;
      requestBody: {
        content: {
          'application/json': { bayId?: string; technicianId?: string; startsAt?: string; endsAt?: string };
        };
      };
      responses: { 200: Json<AssignmentFacts>; default: Problem };
    };
    delete: { parameters: ById; responses: { 204: Nothing; default: Problem } };
  };
}
