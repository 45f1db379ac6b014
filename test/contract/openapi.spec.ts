import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Validator } from '@seriousme/openapi-schema-validator';
import openapiTypescript, { astToString } from 'openapi-typescript';
import request from 'supertest';
import { ACTION, OPEN_TO_ALL } from '#server/platform/http/route';
import { ROOT } from '../architecture/source-files.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

interface Operation {
  readonly operationId: string;
  readonly summary?: string;
  readonly parameters?: readonly { readonly in: string; readonly name: string }[];
  readonly responses: Readonly<Record<string, unknown>>;
}

interface Served {
  readonly openapi: string;
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

/** As much of Nest as is needed to look at every route. */
interface Container {
  readonly container: {
    getModules(): Map<
      string,
      { readonly controllers: Map<unknown, { readonly metatype: new () => object }> }
    >;
  };
}

describe('the OpenAPI document', () => {
  let shop: ShopUnderTest;
  let served: Served;
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
    const verdict = await new Validator().validate({ ...structuredClone(served) });
    expect(verdict.errors).toBeUndefined();
    expect(verdict.valid).toBe(true);
    expect(served.openapi).toMatch(/^3\.1\./);
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
    const operations = Object.entries(served.paths).flatMap(([path, item]) =>
      Object.entries(item).map(([method, operation]) => ({ path, method, ...operation })),
    );
    expect(operations.length).toBeGreaterThan(60);
    expect(new Set(operations.map((o) => o.operationId)).size).toBe(operations.length);
    expect(operations.filter((o) => !o.summary).map((o) => `${o.method} ${o.path}`)).toEqual([]);
    expect(operations.filter((o) => !o.responses['default']).map((o) => o.path)).toEqual([]);
    const undescribed = operations.filter((o) =>
      [...o.path.matchAll(/\{(\w+)\}/g)].some(
        (m) => !o.parameters?.some((p) => p.in === 'path' && p.name === m[1]),
      ),
    );
    expect(undescribed.map((o) => o.path)).toEqual([]);
  });

  it('has a browsable page', async () => {
    const page = await request(shop.url).get('/api/docs').expect(200);
    expect(page.text).toContain('Bayledger API');
  });

  it('every route says who may use it', () => {
    const { container } = shop.server.app as unknown as Container;
    const silent: string[] = [];
    for (const module of container.getModules().values()) {
      for (const { metatype } of module.controllers.values()) {
        const methods = Object.entries(Object.getOwnPropertyDescriptors(metatype.prototype as object));
        for (const [name, { value }] of methods) {
          if (name === 'constructor' || typeof value !== 'function' || !Reflect.hasMetadata('path', value))
            continue;
          if (!Reflect.hasMetadata(ACTION, value) && !Reflect.hasMetadata(OPEN_TO_ALL, value))
            silent.push(`${metatype.name}.${name}`);
        }
      }
    }
    expect(silent).toEqual([]);
  });
});
