import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Validator } from '@seriousme/openapi-schema-validator';
import openapiTypescript, { astToString } from 'openapi-typescript';
import request from 'supertest';
import { ACTION, OPEN_TO_ALL } from '#server/platform/http/route';
import { ROOT } from '../architecture/source-files.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

describe('the OpenAPI document', () => {
  let shop: ShopUnderTest;
  let served: Record<string, any>;
  beforeAll(async () => {
    shop = await shopUnderTest();
    served = (await request(shop.url).get('/api/openapi.json').expect(200)).body;
  });
  afterAll(async () => {
    await shop.stop();
  });

  it('is the one that is committed; after a change run: npm run openapi', () => {
    const committed = JSON.parse(readFileSync(join(ROOT, 'apps/server/openapi.json'), 'utf8'));
    expect(served).toEqual(committed);
  });

  it('is valid OpenAPI 3.1', async () => {
    const verdict = await new Validator().validate(structuredClone(served));
    expect(verdict.errors).toBeUndefined();
    expect(verdict.valid).toBe(true);
    expect(served['openapi']).toMatch(/^3\.1\./);
    expect(JSON.stringify(served)).not.toContain('"nullable"');
  });

  it('is what the web client is typed by', async () => {
    const types = astToString(
      await openapiTypescript(new URL(`file://${join(ROOT, 'apps/server/openapi.json')}`)),
    );
    const committed = readFileSync(join(ROOT, 'apps/web/src/api/schema.d.ts'), 'utf8');
    expect(committed.endsWith(types)).toBe(true);
  });

  it('has an operation id, a summary and a problem answer for every operation', () => {
    const operations = Object.entries<Record<string, any>>(served['paths']).flatMap(([path, item]) =>
      Object.entries<any>(item).map(([method, operation]) => ({ path, method, ...operation })),
    );
    expect(operations.length).toBeGreaterThan(60);
    expect(new Set(operations.map((o) => o.operationId)).size).toBe(operations.length);
    expect(operations.filter((o) => !o.summary).map((o) => `${o.method} ${o.path}`)).toEqual([]);
    expect(operations.filter((o) => !o.responses.default).map((o) => o.path)).toEqual([]);
    const undescribed = operations.filter((o) =>
      [...o.path.matchAll(/\{(\w+)\}/g)].some(
        (m) => !o.parameters?.some((p: any) => p.in === 'path' && p.name === m[1]),
      ),
    );
    expect(undescribed.map((o) => o.path)).toEqual([]);
  });

  it('has a browsable page', async () => {
    const page = await request(shop.url).get('/api/docs').expect(200);
    expect(page.text).toContain('Bayledger API');
  });

  it('every route says who may use it', () => {
    const container = (shop.server.app as any).container;
    const silent: string[] = [];
    for (const module of container.getModules().values()) {
      for (const { metatype } of module.controllers.values()) {
        for (const name of Object.getOwnPropertyNames(metatype.prototype)) {
          const handler = metatype.prototype[name];
          if (name === 'constructor' || !Reflect.hasMetadata('path', handler)) continue;
          if (!Reflect.hasMetadata(ACTION, handler) && !Reflect.hasMetadata(OPEN_TO_ALL, handler))
            silent.push(`${metatype.name}.${name}`);
        }
      }
    }
    expect(silent).toEqual([]);
  });
});
