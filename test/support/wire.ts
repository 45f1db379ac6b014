import { request } from 'node:http';
import { connect } from 'node:net';

export interface WireAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
}

export interface Sent {
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Buffer;
}

/** One request on a connection of its own, with exactly this path and these bytes: what a tidy client would not send. */
export function send(
  url: string,
  method: string,
  path: string,
  { headers, body }: Sent = {},
): Promise<WireAnswer> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve, reject) => {
    const sent = request(
      { agent: false, host: hostname, port, method, path, headers: { ...headers } },
      (answer) => {
        const parts: Buffer[] = [];
        answer.on('data', (part: Buffer) => parts.push(part));
        answer.on('end', () =>
          resolve({
            status: answer.statusCode ?? 0,
            headers: answer.headers,
            text: Buffer.concat(parts).toString(),
          }),
        );
      },
    );
    sent.on('error', reject);
    if (body !== undefined) sent.setHeader('content-length', Buffer.byteLength(body));
    sent.end(body);
  });
}

/** Bytes that are not HTTP as a library would write it; answers with everything that comes until the other side closes. */
export function sendBytes(url: string, bytes: string): Promise<string> {
  const { hostname, port } = new URL(url);
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname, () => socket.write(bytes));
    let text = '';
    socket.setTimeout(5_000, () => socket.destroy(new Error('no answer')));
    socket.on('data', (part) => (text += part.toString()));
    socket.on('close', () => resolve(text));
    socket.on('error', reject);
  });
}
