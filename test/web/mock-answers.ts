import type { ServerResponse } from 'node:http';

export function json(
  response: ServerResponse,
  status: number,
  body?: unknown,
  headers: Record<string, string> = {},
): void {
  response.writeHead(status, { 'content-type': 'application/json', ...headers });
  response.end(body === undefined ? undefined : JSON.stringify(body));
}

export function problem(
  response: ServerResponse,
  status: number,
  facts: Readonly<Record<string, unknown>>,
): void {
  response.writeHead(status, { 'content-type': 'application/problem+json' });
  response.end(JSON.stringify({ type: 'about:blank', title: 'Refused', status, ...facts }));
}
