import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { API_PREFIX, webFolder } from '#server/platform/http/equip';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import { send } from '../support/wire.js';

describe('what a browser is told', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });
  const signed = (): { authorization: string } => ({ authorization: `Bearer ${shop.manager.token}` });

  const header = async (path: string, name: string): Promise<unknown> =>
    (await send(shop.url, 'GET', path, { headers: { ...signed(), 'accept-encoding': 'gzip' } })).headers[
      name
    ];

  it('files named by their content are kept for good, pages are asked for each time, answers belong to who asked', async () => {
    const [script] = readdirSync(join(webFolder(), 'assets')).filter((name) => name.endsWith('.js'));
    expect(await header(`/assets/${script ?? ''}`, 'cache-control')).toBe(
      'public, max-age=31536000, immutable',
    );
    for (const page of ['/sign-in', '/board', '/board.html'])
      expect(await header(page, 'cache-control')).toBe('no-cache');
    expect(await header('/api/v1/bays', 'cache-control')).toBe('private, no-cache');
  });

  it('a long answer comes compressed and says that it depends on that', async () => {
    expect(await header('/api/openapi.json', 'content-encoding')).toBe('gzip');
    expect(await header('/api/openapi.json', 'vary')).toContain('accept-encoding');
  });

  it('the event stream is never compressed or held back', async () => {
    const stop = new AbortController();
    const answer = await fetch(`${shop.url}/${API_PREFIX}/live`, {
      headers: { authorization: `Bearer ${shop.manager.token}`, 'accept-encoding': 'gzip' },
      signal: stop.signal,
    });
    expect(answer.headers.get('content-encoding')).toBeNull();
    expect(answer.headers.get('cache-control')).toContain('no-transform');
    const reader = answer.body?.getReader();
    let text = '';
    while (!text.includes('event: ready'))
      text += Buffer.from((await reader?.read())?.value ?? []).toString();
    stop.abort();
  });

  it('pages may load only what is ours; the page of the API may also style itself, and loads all its scripts', async () => {
    const policy = async (path: string): Promise<string> =>
      String((await send(shop.url, 'GET', path, { headers: signed() })).headers['content-security-policy']);
    for (const path of ['/board', '/sign-in', '/api/v1/bays']) {
      expect(await policy(path)).toContain(`script-src 'self'`);
      expect(await policy(path)).not.toMatch(/style-src 'self' 'unsafe-inline'|unsafe-eval|\*/);
    }
    expect(await policy('/api/docs')).toContain(`script-src 'self'; style-src 'self' 'unsafe-inline'`);
    const docs = (await send(shop.url, 'GET', '/api/docs')).text;
    const scripts = [...docs.matchAll(/<script([^>]*)>([^<]*)</g)];
    expect(scripts.length).toBeGreaterThan(0);
    for (const [, attributes = '', inline = ''] of scripts) {
      const src = /src="\.\/([^"]+)"/.exec(attributes)?.[1];
      expect([inline.trim(), (await send(shop.url, 'GET', `/api/${src ?? ''}`)).status]).toEqual(['', 200]);
    }
  });
});
