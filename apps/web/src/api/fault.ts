import type { Fault, FieldFault } from '#libs/kernel';

/** A refusal as the pages see it. `status` 0 means that no answer came. */
export interface ApiFault extends Fault {
  readonly status: number;
  /** Seconds until it is worth trying again, when the server said so. */
  readonly retryAfterSeconds?: number;
}

export const lineLost: ApiFault = {
  code: 'line-lost',
  status: 0,
  detail: 'The server did not answer. Check the network of this device, then try again.',
};

const known = new Set(['type', 'title', 'status', 'detail', 'instance', 'code', 'fields']);

function record(value: unknown): Record<string, unknown> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

function fieldFaults(value: unknown): FieldFault[] {
  if (!Array.isArray(value)) return [];
  return value.map(record).map(({ pointer, detail }) => ({
    pointer: typeof pointer === 'string' ? pointer : '',
    detail: typeof detail === 'string' ? detail : '',
  }));
}

/** Turns an answer that is not 2xx into a fault: problem details (RFC 9457) where there are some, plain words else. */
export function faultFrom(response: Response, body: unknown): ApiFault {
  const problem = record(body);
  const retryAfter = Number(response.headers.get('retry-after') ?? problem.retryAfterSeconds);
  const text = [problem.detail, problem.title].find((value) => typeof value === 'string' && value !== '');
  return {
    status: response.status,
    code: typeof problem.code === 'string' ? problem.code : 'unexpected-answer',
    detail:
      typeof text === 'string' ? text : `The server answered ${response.status}. Try again in a moment.`,
    fields: fieldFaults(problem.fields),
    facts: Object.fromEntries(Object.entries(problem).filter(([key]) => !known.has(key))),
    ...(Number.isFinite(retryAfter) && retryAfter > 0 ? { retryAfterSeconds: retryAfter } : {}),
  };
}
