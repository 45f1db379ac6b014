import { ArgumentsHost, Catch, ExceptionFilter, HttpException } from '@nestjs/common';
import { QueryFailedError } from 'typeorm';
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
    void reply
      .code(body.status)
      .header('content-type', 'application/problem+json; charset=utf-8')
      .send(JSON.stringify(body));
  }

  private faultOf(error: unknown, request: FastifyRequest): Fault {
    if (error instanceof ProblemError) {
      if (!isProblemCode(error.fault.code))
        this.log.error({ code: error.fault.code }, 'a fault without a problem code');
      return error.fault;
    }
    if (error instanceof QueryFailedError) {
      const known = problemOfDatabaseError(error);
      if (known) return known.fault;
    }
    const status = statusOf(error);
    const known = status === undefined ? undefined : OF_STATUS[status];
    if (known) return { code: known[0], detail: known[1] };
    this.log.error({ err: error, requestId: request.id, url: request.url }, 'unexpected error');
    return {
      code: 'server-error',
      detail: 'Nothing was saved. Try again; if it stays, tell us the request number.',
      facts: { requestId: request.id },
    };
  }
}

function statusOf(error: unknown): number | undefined {
  if (error instanceof HttpException) return error.getStatus();
  const status = (error as { statusCode?: unknown } | null)?.statusCode;
  return typeof status === 'number' && status < 500 ? status : undefined;
}
