import { CallHandler, ExecutionContext, Injectable, NestInterceptor } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { map, type Observable } from 'rxjs';

/** A document with a `version` answers with an ETag; a GET that names it gets 304 (weak comparison, RFC 9110). */
@Injectable()
export class EtagInterceptor implements NestInterceptor {
  intercept(host: ExecutionContext, next: CallHandler): Observable<unknown> {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    return next.handle().pipe(
      map((body: unknown) => {
        const version = (body as { version?: unknown } | null | undefined)?.version;
        if (typeof version !== 'number') return body;
        const tag = `"${version}"`;
        void reply.header('etag', tag);
        const known = request.headers['if-none-match'];
        if (request.method !== 'GET' || known === undefined) return body;
        const tags = known.split(',').map((t) => t.trim().replace(/^W\//, ''));
        if (!tags.includes(tag) && !tags.includes('*')) return body;
        void reply.code(304);
        return undefined;
      }),
    );
  }
}
