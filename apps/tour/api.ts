import { randomUUID } from 'node:crypto';

/** The server answered with a problem where the story expects success. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    readonly detail: string,
    readonly facts: Readonly<Record<string, unknown>>,
  ) {
    super(`${status} ${code}: ${detail}`);
  }
}

export type Json = Record<string, never> | Readonly<Record<string, unknown>>;

const WAIT_MS = 500;
const TRIES = 60;

/**
 * One person's way to the public API. Every POST carries an idempotency key and is repeated with the same key when the
 * line breaks: what the server had acknowledged is answered again, what it had not is done once.
 */
export class Api {
  private constructor(
    readonly base: string,
    private readonly headers: Readonly<Record<string, string>>,
    readonly who: string,
  ) {}

  static stranger(base: string, who = 'nobody'): Api {
    return new Api(base, {}, who);
  }

  static async signIn(base: string, email: string, password: string): Promise<Api> {
    const stranger = Api.stranger(base);
    const answer = await stranger.post<{ accessToken: string; staff: { displayName: string } }>('/sessions', {
      email,
      password,
      delivery: 'body',
    });
    return new Api(base, { authorization: `Bearer ${answer.accessToken}` }, answer.staff.displayName);
  }

  get<T>(path: string): Promise<T> {
    return this.send<T>('GET', path);
  }

  post<T>(path: string, body: object = {}): Promise<T> {
    return this.send<T>('POST', path, body, { 'idempotency-key': `"${randomUUID()}"` });
  }

  put<T>(path: string, body: object, headers: Record<string, string> = {}): Promise<T> {
    return this.send<T>('PUT', path, body, headers);
  }

  patch<T>(path: string, body: object, version: number): Promise<T> {
    return this.send<T>('PATCH', path, body, { 'if-match': `"${version}"` });
  }

  /** Expects a refusal and returns it; anything else is an error of the story. */
  async refusal(act: Promise<unknown>): Promise<Refused> {
    try {
      await act;
    } catch (error) {
      if (error instanceof Refused) return error;
      throw error;
    }
    throw new Error('the server allowed what it should have refused');
  }

  async upload<T>(path: string, field: string, name: string, bytes: Uint8Array<ArrayBuffer>): Promise<T> {
    const form = new FormData();
    form.set(field, new Blob([bytes], { type: 'image/png' }), name);
    const response = await fetch(`${this.base}/api/v1${path}`, {
      method: 'POST',
      headers: { ...this.headers, 'idempotency-key': `"${randomUUID()}"` },
      body: form,
    });
    return answerOf<T>(response);
  }

  private async send<T>(
    method: string,
    path: string,
    body?: object,
    headers: Record<string, string> = {},
  ): Promise<T> {
    const response = await patiently(() =>
      fetch(`${this.base}/api/v1${path}`, {
        method,
        headers: {
          ...this.headers,
          ...headers,
          accept: 'application/json',
          ...(body ? { 'content-type': 'application/json' } : {}),
        },
        ...(body ? { body: JSON.stringify(body) } : {}),
      }),
    );
    return answerOf<T>(response);
  }
}

async function patiently(ask: () => Promise<Response>): Promise<Response> {
  for (let left = TRIES; ; left -= 1) {
    try {
      const response = await ask();
      if (response.status !== 503 && response.status !== 429) return response;
      if (left === 0) return response;
    } catch (error) {
      if (left === 0) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, WAIT_MS));
  }
}

async function answerOf<T>(response: Response): Promise<T> {
  const text = await response.text();
  const value: unknown = text === '' ? undefined : JSON.parse(text);
  if (response.ok) return value as T;
  const { code = 'unknown', detail = text, ...facts } = (value ?? {}) as Record<string, unknown>;
  throw new Refused(response.status, String(code), String(detail), facts);
}
