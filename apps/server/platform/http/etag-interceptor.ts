import { CallHandler, ExecutionContext, Injectable, NestInterceptor } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { map, type Observable } from 'rxjs';
import { WHOLE_IN_VERSION } from './answers.js';

/**
 * A document with a `version` answers with an ETag, for If-Match. A GET that names it gets 304 (weak comparison,
 * RFC 9110) only on routes marked WholeInVersion: most answers also show what is derived from other records, and a
 * browser that sends If-None-Match by itself would go on showing the old stage.
 */
@Injectable()
export class EtagInterceptor implements NestInterceptor {
  private readonly reflector = new Reflector();

  intercept(host: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const whole = this.reflector.get<boolean | undefined>(WHOLE_IN_VERSION, host.getHandler()) === true;
    return next.handle().pipe(
      map((body: unknown) => {
        const version = (body as { version?: unknown } | null | undefined)?.version;
        if (typeof version !== 'number') return body;
        const tag = `"${version}"`;
        void reply.header('etag', tag);
        const known = request.headers['if-none-match'];
        if (!whole || request.method !== 'GET' || known === undefined) return body;
        const tags = known.split(',').map((t) => t.trim().replace(/^W\//, ''));
        if (!tags.includes(tag) && !tags.includes('*')) return body;
        void reply.code(304);
        return undefined;
      }),
    );
  }
}
