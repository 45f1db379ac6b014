import type { Socket } from 'node:net';
import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import { problemBody } from './problem-filter.js';

const PROBLEM_JSON = 'application/problem+json; charset=utf-8';

/** What Fastify refuses before there is a route: an address that cannot be decoded, or an id as long as a page. */
export function frameworkErrors(error: FastifyError, request: FastifyRequest, reply: FastifyReply): void {
  const body =
    error.code === 'FST_ERR_MAX_PARAM_LENGTH'
      ? problemBody({ code: 'not-found', detail: 'There is no such address or record.' }, '')
      : problemBody({ code: 'malformed-request', detail: 'The address is not well-formed.' }, '');
  const instance = (request.raw.url ?? '').split('?')[0]?.slice(0, 200);
  void reply
    .code(body.status)
    .header('content-type', PROBLEM_JSON)
    .send(JSON.stringify({ ...body, instance }));
}

const DETAIL: Readonly<Record<string, string>> = {
  HPE_HEADER_OVERFLOW: 'The address and the headers are longer than 16 KiB together.',
  ERR_HTTP_REQUEST_TIMEOUT: 'The request did not arrive in time. Send it again.',
};

/** What is not even HTTP. There is no request and no reply yet, only the connection, which is closed afterwards. */
export function clientErrorHandler(error: NodeJS.ErrnoException, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const detail = DETAIL[error.code ?? ''] ?? 'The request is not well-formed HTTP.';
  const body = JSON.stringify(problemBody({ code: 'malformed-request', detail }, ''));
  socket.end(
    `HTTP/1.1 400 Bad Request\r\nContent-Type: ${PROBLEM_JSON}\r\nContent-Length: ${Buffer.byteLength(body)}\r\nConnection: close\r\n\r\n${body}`,
  );
}
