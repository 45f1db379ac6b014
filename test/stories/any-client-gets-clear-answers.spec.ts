import { API_PREFIX } from '#server/platform/http/equip';
import { PROBLEMS, type ProblemCode } from '#server/platform/http/problem-codes';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import { send, sendBytes, type Sent, type WireAnswer } from '../support/wire.js';

const BAY = { number: 1, name: 'Front left', kind: 'flat' };
const NOBODY = '0198a000-0000-7000-8000-000000000001';
const JSON_TYPE = { 'content-type': 'application/json' };

describe('any client gets clear answers', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  const ask = (method: string, path: string, sent: Sent = {}): Promise<WireAnswer> =>
    send(shop.url, method, path, {
      ...sent,
      headers: { authorization: `Bearer ${shop.manager.token}`, ...sent.headers },
    });
  const api = (method: string, path: string, sent: Sent = {}): Promise<WireAnswer> =>
    ask(method, `/${API_PREFIX}${path}`, sent);
  const post = (body: string | Buffer, headers: Record<string, string> = JSON_TYPE): Promise<WireAnswer> =>
    api('POST', '/bays', { headers, body });

  function expectProblem(answer: WireAnswer, code: ProblemCode): Record<string, unknown> {
    expect([answer.status, answer.headers['content-type']]).toEqual([
      PROBLEMS[code].status,
      'application/problem+json; charset=utf-8',
    ]);
    const body = JSON.parse(answer.text) as Record<string, unknown>;
    expect(body).toMatchObject({ code, type: `/problems/${code}`, status: answer.status });
    expect(Object.keys(body)).toEqual(expect.arrayContaining(['title', 'detail', 'instance']));
    expect(answer.text).not.toMatch(/node_modules|\.ts:|FST_ERR|at async/);
    return body;
  }
  const pointers = (body: Record<string, unknown>): string[] =>
    (body['fields'] as { pointer: string }[]).map(({ pointer }) => pointer);

  describe('about the address', () => {
    it.each([
      '/api/v1/nothing-here',
      '/api/v2/bays',
      '/API/v1/bays',
      '//api/v1/bays',
      '/api/v1/bays/',
      '/nothing-here',
      `/api/v1/customers/${NOBODY}`,
      '/api/v1/customers/7',
      `/api/v1/customers/${'a'.repeat(300)}`,
      '/api/v1/customers/%00',
    ])('%s is not here: a problem, not a page', async (path) => {
      expectProblem(await ask('GET', path), 'not-found');
    });

    it.each(['/assets/../../package.json', '/assets/%2e%2e/%2e%2e/package.json', '/..%2f..%2fpackage.json'])(
      '%s is no way out of the folder of pages',
      async (path) => {
        expectProblem(await ask('GET', path), 'not-found');
      },
    );

    it('an address that cannot be decoded, or with headers that do not end, cannot be read', async () => {
      expectProblem(await api('GET', '/customers/%E0%A4%A'), 'malformed-request');
      const long = expectProblem(await api('GET', `/search?q=${'a'.repeat(20_000)}`), 'malformed-request');
      expect(long['detail']).toContain('16 KiB');
      expectProblem(await api('GET', `/search?q=${'a'.repeat(8_000)}`), 'request-invalid');
    });

    it.each(['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE'])(
      '%s on a list says what it takes instead',
      async (method) => {
        const answer = await api(method, '/bays');
        expectProblem(answer, 'method-not-allowed');
        expect(answer.headers['allow']).toBe('GET, HEAD, POST');
      },
    );

    it('the methods of an address with an id in it are those of that address', async () => {
      const answer = await api('POST', `/lines/${NOBODY}`, { headers: JSON_TYPE, body: '{}' });
      expectProblem(answer, 'method-not-allowed');
      expect(answer.headers['allow']).toBe('DELETE, PATCH');
    });

    it('HEAD says what GET would, without the body', async () => {
      for (const path of ['/api/v1/bays', '/sign-in', '/board'])
        expect(await ask('HEAD', path)).toMatchObject({ status: 200, text: '' });
    });

    it('what is not HTTP at all is told so, and the connection closed', async () => {
      const strange = [
        'HELLO\r\n\r\n',
        'POST / HTTP/1.1\r\nhost: x\r\ncontent-length: 2\r\ncontent-length: 3\r\n\r\n{}',
      ];
      for (const bytes of strange) {
        const text = await sendBytes(shop.url, bytes);
        expect(text).toMatch(/^HTTP\/1\.1 400 /);
        expect(text).toContain('application/problem+json');
        expect(text).toContain('"code":"malformed-request"');
      }
    });
  });

  describe('about the body', () => {
    it.each([
      '{"number":',
      '{number: 1}',
      '{"__proto__":{"roles":["manager"]}}',
      '{"constructor":{"prototype":{}}}',
    ])('%s is not JSON that is read here', async (body) => {
      expectProblem(await post(body), 'malformed-request');
    });

    it('one that is nested without end is refused before anybody walks over it', async () => {
      for (const headers of [JSON_TYPE, { ...JSON_TYPE, 'idempotency-key': '"deep"' }]) {
        const deep = expectProblem(
          await post('['.repeat(20_000) + ']'.repeat(20_000), headers),
          'malformed-request',
        );
        expect(deep['detail']).toContain('levels deep');
        expectProblem(
          await post('{"number":'.repeat(5_000) + '1' + '}'.repeat(5_000), headers),
          'malformed-request',
        );
      }
    });

    it('larger than a mebibyte is too large', async () => {
      expectProblem(await post(JSON.stringify({ ...BAY, name: 'x'.repeat(1_100_000) })), 'too-large');
    });

    it.each([
      'text/plain',
      'application/xml',
      'application/x-www-form-urlencoded',
      'application/merge-patch+json',
      'image/png',
      'rubbish',
    ])('%s is not a kind that the API reads', async (type) => {
      expectProblem(await post('number=1', { 'content-type': type }), 'unsupported-media-type');
    });

    it('a POST that promises JSON and has none is told how to do it', async () => {
      const none = await api('POST', '/clock/off', { headers: JSON_TYPE });
      expect(expectProblem(none, 'malformed-request')['detail']).toBe(
        'The body is empty. Send {} or leave Content-Type out.',
      );
      const withoutHeader = await send(shop.url, 'POST', `/${API_PREFIX}/clock/off`, {
        headers: { authorization: `Bearer ${shop.technician.token}` },
      });
      expectProblem(withoutHeader, 'not-clocked-on');
    });

    it.each(['null', '[]', '"text"', '5', '{}'])('%s lacks every field that is needed', async (body) => {
      expect(pointers(expectProblem(await post(body), 'request-invalid'))).toEqual(
        expect.arrayContaining(['/number', '/name', '/kind']),
      );
    });

    it('a field that nobody knows is pointed at, with ~ and / escaped', async () => {
      const body = JSON.stringify({ ...BAY, hasOwnProperty: 1, toString: 2, 'a/b~c': 3 });
      expect(pointers(expectProblem(await post(body), 'request-invalid'))).toEqual(['/a~1b~0c']);
    });

    it('DELETE may carry a body of JSON', async () => {
      const headers = { ...JSON_TYPE, 'if-match': '"1"' };
      expectProblem(await api('DELETE', `/assignments/${NOBODY}`, { headers, body: '{}' }), 'not-found');
    });
  });

  describe('about the query', () => {
    it.each([
      ['/customers?limit=0', '/limit'],
      ['/customers?limit=', '/limit'],
      ['/customers?limit=1&limit=2', '/limit'],
      ['/customers?limit=1e1', undefined],
      ['/customers?q=a&q=b', '/q'],
      ['/customers?q[a]=1', '/q[a]'],
      ['/customers?colour=red', '/colour'],
      ['/search?q=%00', '/q'],
      ['/customers?cursor=zzz', '/cursor'],
      [`/photos/${NOBODY}?size=../../x`, '/size'],
    ])('%s points at what is wrong', async (path, pointer) => {
      const answer = await api('GET', path);
      if (pointer === undefined) expect(answer.status).toBe(200);
      else expect(pointers(expectProblem(answer, 'request-invalid'))).toEqual([pointer]);
    });

    it('a cursor that was made up is none of ours, whatever list it is for', async () => {
      for (const parts of [['x'], ['x', 'y'], [1, 2], ['2026-01-01T00:00:00Z', 'y'], ['x', 'y', 'z']]) {
        const cursor = Buffer.from(JSON.stringify(parts)).toString('base64url');
        for (const list of ['customers', 'vehicles', 'repair-orders', 'work-orders'])
          expect([list, (await api('GET', `/${list}?cursor=${cursor}`)).status]).toEqual([list, 422]);
      }
    });
  });

  describe('about who asks', () => {
    it('who is not signed in is told by what scheme to', async () => {
      for (const authorization of ['', 'Basic YTpi', 'Bearer', 'Bearer a.b.c']) {
        const answer = await api('GET', '/bays', { headers: { authorization } });
        expectProblem(answer, 'not-signed-in');
        expect(answer.headers['www-authenticate']).toBe('Bearer');
      }
    });

    it('an Idempotency-Key that is none is refused, not ignored', async () => {
      for (const key of ['""', '"', 'two words', '"a"b"', 'x'.repeat(201)])
        expectProblem(
          await post(JSON.stringify(BAY), { ...JSON_TYPE, 'idempotency-key': key }),
          'malformed-request',
        );
    });
  });

  it('a body that says it is compressed is not read', async () => {
    const gzip = { ...JSON_TYPE, 'content-encoding': 'gzip' };
    expectProblem(await post(Buffer.from('1f8b0800', 'hex'), gzip), 'malformed-request');
  });
});
