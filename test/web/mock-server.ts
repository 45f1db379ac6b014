import { existsSync, readFileSync } from 'node:fs';
import { type IncomingMessage, type Server, type ServerResponse, createServer } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { extname, join, resolve } from 'node:path';
import type { Board } from '../../apps/web/src/api/types.js';
import { demoBoard } from './mock-board.js';
import { problem } from './mock-answers.js';
import { type MockDesk, demoDesk } from './mock-estimate.js';
import { demoParts } from './mock-parts.js';
import { type MockPlan, demoPlan } from './mock-plan.js';
import { answer } from './mock-routes.js';
import { answered } from './mock-what-if.js';
import type { WhatIf } from '../../apps/web/src/api/what-if-types.js';

/** What the real server sends with its pages; a page that breaks it fails its test. */
export const CONTENT_POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'unsafe-inline'; img-src 'self' data:; " +
  "font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

export interface Call {
  readonly method: string;
  readonly path: string;
  readonly headers: IncomingMessage['headers'];
  readonly body: Record<string, unknown>;
}
export interface Refusal {
  readonly method: string;
  readonly path: RegExp;
  readonly status: number;
  readonly problem: Readonly<Record<string, unknown>>;
}

/** A stand-in for the server, small enough to be read: only what the pages need, and switches for bad days. */
export class MockServer {
  board: Board = demoBoard();
  desk: MockDesk = demoDesk();
  planning: MockPlan = demoPlan();
  readonly parts = demoParts();
  /** What was asked, the newest first. */
  readonly whatIfs: WhatIf[] = [answered(1)];
  /** The shop's people know each other's PINs here; `null` accounts hide the demo list. */
  showsDemo = true;
  /** Milliseconds before each answer of the API. */
  delayMs = 0;
  readonly calls: Call[] = [];
  readonly sessions = new Map<string, string>();
  /** The refresh cookies that were given out: whose, and once used which one came after. */
  readonly cookies = new Map<string, { readonly staffId: string; successor?: string }>();
  readonly devices = new Set<string>();
  readonly #refusals: Refusal[] = [];
  readonly #streams = new Set<ServerResponse>();
  readonly #sockets = new Set<Socket>();
  readonly #server: Server;
  #cut = false;
  #eventId = 0;

  constructor() {
    this.#server = createServer((request, response) => void this.#handle(request, response));
    this.#server.on('connection', (socket) => {
      this.#sockets.add(socket);
      socket.on('close', () => this.#sockets.delete(socket));
    });
  }

  async start(): Promise<string> {
    await new Promise<void>((ready) => this.#server.listen(0, '127.0.0.1', ready));
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}`;
  }

  async stop(): Promise<void> {
    for (const socket of this.#sockets) socket.destroy();
    await new Promise((done) => this.#server.close(done));
  }

  /** Somebody changed something: every open page is told. */
  emit(kind = 'assignment', times = 1, subjects: Readonly<Record<string, string>> = {}): void {
    for (let n = 0; n < times; n += 1) {
      this.#eventId += 1;
      const data = JSON.stringify({ id: String(this.#eventId), kind, subjects });
      for (const stream of this.#streams)
        stream.write(`id: ${this.#eventId}\nevent: change\ndata: ${data}\n\n`);
    }
    this.board.lastEventId = String(this.#eventId);
  }

  /** The network goes: open streams break, the API does not answer. Pages that are open stay open. */
  cutLine(): void {
    this.#cut = true;
    for (const socket of this.#sockets) socket.destroy();
  }
  mendLine(): void {
    this.#cut = false;
  }
  /** Access tokens run out; the refresh cookies stay good. */
  expireTokens(): void {
    this.sessions.clear();
  }
  /** The next matching call is refused. */
  refuse(refusal: Refusal): void {
    this.#refusals.push(refusal);
  }
  get openStreams(): number {
    return this.#streams.size;
  }

  async #handle(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const path = (request.url ?? '/').split('?')[0] ?? '/';
    if (!path.startsWith('/api/')) {
      this.#file(path, response);
      return;
    }
    if (this.#cut) return void request.socket.destroy();
    const chunks: Buffer[] = [];
    for await (const chunk of request) chunks.push(chunk as Buffer);
    const text = Buffer.concat(chunks).toString();
    const call: Call = {
      method: request.method ?? 'GET',
      path: request.url ?? '/',
      headers: request.headers,
      body: text === '' ? {} : (JSON.parse(text) as Record<string, unknown>),
    };
    this.calls.push(call);
    if (this.delayMs > 0) await new Promise((done) => setTimeout(done, this.delayMs));
    const index = this.#refusals.findIndex((one) => one.method === call.method && one.path.test(path));
    const refusal = index < 0 ? undefined : this.#refusals.splice(index, 1)[0];
    if (refusal) {
      problem(response, refusal.status, refusal.problem);
      return;
    }
    answer(this, call, path, response);
  }

  listen(response: ServerResponse): void {
    response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
    response.write(': here\n\n');
    this.#streams.add(response);
    response.on('close', () => this.#streams.delete(response));
  }

  #file(path: string, response: ServerResponse): void {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const name = path === '/' ? '/board.html' : extname(path) === '' ? `${path}.html` : path;
    const file = join(web, name);
    if (!file.startsWith(web) || !existsSync(file)) return void response.writeHead(404).end();
    const html = name.endsWith('.html');
    response.writeHead(200, {
      'content-type': types[extname(name)] ?? 'application/octet-stream',
      ...(html ? { 'content-security-policy': CONTENT_POLICY } : { 'cache-control': 'max-age=3600' }),
    });
    response.end(readFileSync(file));
  }
}

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
};
