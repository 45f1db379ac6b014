import { ArgumentsHost, Catch, ExceptionFilter, HttpException } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Logger } from 'pino';
import type { Fault } from '#libs/kernel';
import { problemOfDatabaseError } from '../database/constraint-problems.js';
import { isProblemCode, PROBLEMS, type ProblemCode } from './problem-codes.js';
import { ProblemError } from './problem-error.js';

const OF_STATUS: Readonly<Record<number, readonly [ProblemCode, string]>> = {
  400: ['malformed-request', 'The request could not be read. Send well-formed JSON.'],
  401: ['not-signed-in', 'Sign in and send the access token.'],
  403: ['not-allowed', 'Your role may not do this.'],
  404: ['not-found', 'There is no such address or record.'],
  405: ['method-not-allowed', 'This address does not take that method; see the Allow header.'],
  413: ['too-large', 'The request is larger than accepted here.'],
  415: ['unsupported-media-type', 'Send application/json.'],
  429: ['too-many-requests', 'Too many requests. Wait a little and try again.'],
};

/** RFC 9457: `type`, `title`, `status`, `detail`, `instance`, our `code`, `fields` for bad input, further facts. */
export function problemBody(fault: Fault, instance: string): Record<string, unknown> & { status: number } {
  const code: ProblemCode = isProblemCode(fault.code) ? fault.code : 'server-error';
  const { status, title } = PROBLEMS[code];
  return {
    ...fault.facts,
    type: `/problems/${code}`,
    title,
    status,
    detail: fault.detail,
    instance,
    code,
    ...(fault.fields ? { fields: fault.fields } : {}),
  };
}

@Catch()
export class ProblemFilter implements ExceptionFilter {
  constructor(private readonly log: Logger) {}

  catch(error: unknown, host: ArgumentsHost): void {
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const fault = this.faultOf(error, request);
    const body = problemBody(fault, request.url.split('?')[0] ?? request.url);
    if (reply.sent) return;
    const wait = fault.facts?.['retryAfterSeconds'];
    if (typeof wait === 'number') void reply.header('retry-after', wait);
    if (body.status === 401) void reply.header('www-authenticate', 'Bearer');
    const allow = fault.facts?.['allow'];
    if (Array.isArray(allow)) void reply.header('allow', allow.join(', '));
    void reply
      .code(body.status)
      .header('content-type', 'application/problem+json; charset=utf-8')
      .send(JSON.stringify(body));
  }

  private faultOf(error: unknown, request: FastifyRequest): Fault {
    if (error instanceof ProblemError) {
      if (!isProblemCode(error.fault.code))
        this.log.error({ code: error.fault.code }, 'a fault without a problem code');
      if (error.cause !== undefined) this.log.warn({ err: forLog(error.cause) }, error.fault.code);
      return error.fault;
    }
    const ofDatabase = problemOfDatabaseError(error);
    if (ofDatabase) return this.faultOf(ofDatabase, request);
    const status = statusOf(error);
    const known = status === undefined ? undefined : OF_STATUS[status];
    if (status === 400 && saysJsonButHasNone(request))
      return { code: 'malformed-request', detail: 'The body is empty. Send {} or leave Content-Type out.' };
    if (known) return { code: known[0], detail: known[1] };
    this.log.error(
      { err: forLog(error), requestId: request.id, method: request.method, route: request.routeOptions.url },
      'unexpected error',
    );
    return {
      code: 'server-error',
      detail: 'Nothing was saved. Try again; if it stays, tell us the request number.',
      facts: { requestId: request.id },
    };
  }
}

/**
 * What helps to find the fault and nothing more. A database error also carries the values of the statement and of the
 * row (names, addresses, digests of tokens), and the address of a request may be an owner's link: neither is for a log.
 */
function forLog(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { type: typeof error };
  const { code, constraint, table } = ((error as { driverError?: object }).driverError ?? error) as Record<
    string,
    unknown
  >;
  return { type: error.name, message: error.message, stack: error.stack, code, constraint, table };
}

/** Many clients name the content type of a POST that has no body. */
function saysJsonButHasNone({ headers }: FastifyRequest): boolean {
  return (
    /^application\/json\b/i.test(headers['content-type'] ?? '') &&
    headers['transfer-encoding'] === undefined &&
    ['0', undefined].includes(headers['content-length'])
  );
}

function statusOf(error: unknown): number | undefined {
  if (error instanceof HttpException) return error.getStatus();
  const status = (error as { statusCode?: unknown } | null)?.statusCode;
  return typeof status === 'number' && status < 500 ? status : undefined;
}
