import { EventSource, type EventSourceFetchInit, type FetchLikeResponse } from 'eventsource';
import { bearer, refresh } from '../session/session.js';

/** The ids of what changed, by their names: `repairOrderId`, `revisionId`. */
export type Subjects = Readonly<Record<string, unknown>>;
export type LineState = 'connecting' | 'live' | 'lost';

export interface LiveLineOptions {
  /** Events up to this one are already in what the page shows; the server replays those after it. */
  readonly lastEventId: string;
  /** Something changed, of these subjects; or, without them, may have changed while nobody listened: read again. */
  readonly onNews: (subjects?: Subjects) => void;
  readonly onState: (state: LineState) => void;
}

/** A short break is not worth a word. */
const GRACE_MS = 1500;
const FIRST_RETRY_MS = 1000;
const LAST_RETRY_MS = 15_000;
/** After this long without a byte the connection is opened anew: a half-open socket says nothing, for ever. */
const SILENCE_MS = 60_000;

/**
 * The stream of changes of the shop. One per page. It carries the access token in a header (which the browser's own
 * EventSource cannot), renews it, and comes back by itself after any kind of break, also those after which an
 * EventSource gives up for good.
 */
export class LiveLine {
  readonly #options: LiveLineOptions;
  #source: EventSource | null = null;
  #lastEventId: string;
  #retryMs = FIRST_RETRY_MS;
  #retry: number | undefined;
  #grace: number | undefined;
  #silence: number | undefined;
  #missed = false;
  #closed = false;

  constructor(options: LiveLineOptions) {
    this.#options = options;
    this.#lastEventId = options.lastEventId;
    addEventListener('online', this.#reopen);
    options.onState('connecting');
    this.#open();
  }

  close(): void {
    this.#closed = true;
    removeEventListener('online', this.#reopen);
    for (const timer of [this.#retry, this.#grace, this.#silence]) window.clearTimeout(timer);
    this.#source?.close();
  }

  readonly #reopen = (): void => {
    window.clearTimeout(this.#retry);
    if (!this.#closed) this.#open();
  };

  #open(): void {
    this.#source?.close();
    const source = new EventSource('/api/v1/live', { fetch: (url, init) => this.#fetch(url, init) });
    this.#source = source;
    source.addEventListener('open', () => this.#opened());
    source.addEventListener('error', () => this.#failed(source));
    source.addEventListener('change', (event) => {
      if (event.lastEventId !== '') this.#lastEventId = event.lastEventId;
      this.#options.onNews(subjectsOf(event.data));
    });
    source.addEventListener('reset', () => this.#options.onNews());
  }

  async #fetch(url: string | URL, init: EventSourceFetchInit): Promise<FetchLikeResponse> {
    const ask = (): Promise<Response> =>
      fetch(url, {
        ...init,
        signal: init.signal as AbortSignal,
        headers: { ...init.headers, 'Last-Event-ID': this.#lastEventId, ...bearer() },
      });
    const first = await ask();
    const response = first.status === 401 && (await refresh()) === 'renewed' ? await ask() : first;
    return {
      url: response.url,
      status: response.status,
      redirected: response.redirected,
      headers: response.headers,
      body: response.body && { getReader: () => this.#heard(response.body as ReadableStream<Uint8Array>) },
    };
  }

  /** Passes the stream on and notes that something came, heartbeats included. */
  #heard(body: ReadableStream<Uint8Array>): ReadableStreamDefaultReader<Uint8Array> {
    const listening = new TransformStream<Uint8Array, Uint8Array>({
      transform: (chunk, controller) => {
        this.#watchSilence();
        controller.enqueue(chunk);
      },
    });
    return body.pipeThrough(listening).getReader();
  }

  #watchSilence(): void {
    window.clearTimeout(this.#silence);
    if (!this.#closed) this.#silence = window.setTimeout(this.#reopen, SILENCE_MS);
  }

  #opened(): void {
    window.clearTimeout(this.#grace);
    this.#grace = undefined;
    this.#retryMs = FIRST_RETRY_MS;
    this.#watchSilence();
    this.#options.onState('live');
    // The server replays what it still has; the rest can only be found by reading again.
    if (this.#missed) this.#options.onNews();
    this.#missed = false;
  }

  #failed(source: EventSource): void {
    if (this.#closed || source !== this.#source) return;
    source.close();
    this.#missed = true;
    this.#grace ??= window.setTimeout(() => this.#options.onState('lost'), GRACE_MS);
    window.clearTimeout(this.#silence);
    window.clearTimeout(this.#retry);
    this.#retry = window.setTimeout(this.#reopen, this.#retryMs);
    this.#retryMs = Math.min(LAST_RETRY_MS, this.#retryMs * 2);
  }
}

function subjectsOf(data: unknown): Subjects | undefined {
  try {
    const { subjects } = JSON.parse(String(data)) as { subjects?: unknown };
    return typeof subjects === 'object' && subjects !== null ? { ...subjects } : undefined;
  } catch {
    return undefined;
  }
}
