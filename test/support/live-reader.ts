import type { Person } from './shop-under-test.js';

export interface LiveEvent {
  readonly type: string;
  readonly id: string;
  readonly data: { readonly kind?: string; readonly subjects?: Record<string, string> };
}

/** Reads the event stream of the shop as a page would, keeping everything that comes. */
export class LiveReader {
  readonly events: LiveEvent[] = [];
  private readonly abort = new AbortController();
  private wake: () => void = () => undefined;

  static async open(url: string, person: Person, lastEventId?: string): Promise<LiveReader> {
    const reader = new LiveReader();
    const response = await fetch(`${url}/api/v1/live`, {
      headers: {
        authorization: `Bearer ${person.token}`,
        accept: 'text/event-stream',
        ...(lastEventId === undefined ? {} : { 'last-event-id': lastEventId }),
      },
      signal: reader.abort.signal,
    });
    if (!response.ok || !response.body) throw new Error(`the stream answered ${response.status}`);
    void reader.read(response.body).catch(() => undefined);
    await reader.until((events) => events.length > 0);
    return reader;
  }

  /** What changed, without the messages about the stream itself. */
  get changes(): LiveEvent[] {
    return this.events.filter(({ type }) => type === 'change');
  }

  /** Waits until the events meet the condition; answers with the milliseconds that it took. */
  async until(condition: (events: readonly LiveEvent[]) => boolean, limitMs = 5000): Promise<number> {
    const began = performance.now();
    while (!condition(this.events)) {
      const left = limitMs - (performance.now() - began);
      if (left <= 0)
        throw new Error(`not within ${limitMs} ms; so far ${JSON.stringify(this.events.slice(-5))}`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, left);
        this.wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
    return performance.now() - began;
  }

  close(): void {
    this.abort.abort();
  }

  private async read(body: ReadableStream<Uint8Array>): Promise<void> {
    let text = '';
    const decoder = new TextDecoder();
    const stream = body.getReader();
    for (;;) {
      const { value, done } = await stream.read();
      if (done) return;
      text += decoder.decode(value, { stream: true });
      const blocks = text.split('\n\n');
      text = blocks.pop() ?? '';
      for (const block of blocks) this.take(block);
      this.wake();
    }
  }

  private take(block: string): void {
    const field = (name: string): string =>
      block
        .split('\n')
        .filter((line) => line.startsWith(`${name}:`))
        .map((line) => line.slice(name.length + 1).trimStart())
        .join('\n');
    const data = field('data');
    if (field('event') === '' && data === '') return;
    this.events.push({
      type: field('event') || 'message',
      id: field('id'),
      data: data === '' ? {} : (JSON.parse(data) as LiveEvent['data']),
    });
  }
}
