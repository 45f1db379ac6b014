import { applyDecorators, createParamDecorator, SetMetadata, type ExecutionContext } from '@nestjs/common';
import { ApiBearerAuth } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import type { Action } from '#libs/access';
import type { RequestContext } from '../context.js';
import { problem } from './problem-error.js';

export const ACTION = 'bayledger:action';
export const OPEN_TO_ALL = 'bayledger:open';

/** The route is for signed-in staff whose role may do this. A route without May or OpenToAll is refused at start. */
export function May(action: Action): MethodDecorator {
  return applyDecorators(SetMetadata(ACTION, action), ApiBearerAuth());
}

/** The route needs no sign-in (sign-in itself, the owner's link, health). */
export function OpenToAll(): MethodDecorator {
  return SetMetadata(OPEN_TO_ALL, true);
}

export interface WithContext extends FastifyRequest {
  bayledger?: RequestContext;
}

/** The explicit context of the request: who, which shop, and the idempotency key of a POST. */
export const Ctx = createParamDecorator((_data: unknown, host: ExecutionContext): RequestContext => {
  const ctx = host.switchToHttp().getRequest<WithContext>().bayledger;
  if (!ctx) throw problem('not-signed-in', 'Sign in and send the access token.');
  return ctx;
});

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** An id in the path. Anything that cannot be an id is a record that does not exist. */
export const Id = createParamDecorator((name: string | undefined, host: ExecutionContext): string => {
  const value = (host.switchToHttp().getRequest<FastifyRequest>().params as Record<string, string>)[
    name ?? 'id'
  ];
  if (value === undefined || !UUID.test(value))
    throw problem('not-found', 'There is no such record in this shop.');
  return value.toLowerCase();
});

function versionOf(header: string): number | '*' {
  if (header.trim() === '*') return '*';
  const version = /^"(\d{1,9})"$/.exec(header.trim())?.[1];
  if (version === undefined)
    throw problem('stale-version', 'If-Match must carry the ETag of the record, such as "3".');
  return Number(version);
}

/** The version named by If-Match (RFC 9110, strong comparison). Missing: 428. `*` means whatever is there. */
export const IfMatch = createParamDecorator((_data: unknown, host: ExecutionContext): number | '*' => {
  const header = host.switchToHttp().getRequest<FastifyRequest>().headers['if-match'];
  if (header === undefined)
    throw problem('version-needed', 'Send If-Match with the ETag that you read, so that no change is lost.');
  return versionOf(header);
});

/** For a PUT that may also create: undefined where no If-Match came; the use case knows whether one is needed. */
export const IfMatchWhenThere = createParamDecorator(
  (_data: unknown, host: ExecutionContext): number | '*' | undefined => {
    const header = host.switchToHttp().getRequest<FastifyRequest>().headers['if-match'];
    return header === undefined ? undefined : versionOf(header);
  },
);

/** Where the request came in, such as https://shop.example: for addresses that are handed out. */
export const Origin = createParamDecorator((_data: unknown, host: ExecutionContext): string => {
  const request = host.switchToHttp().getRequest<FastifyRequest>();
  return `${request.protocol}://${request.host}`;
});
