import type { INestApplication } from '@nestjs/common';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { Problem } from './answers.js';

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** OpenAPI 3.1 is JSON Schema 2020-12: `nullable` is gone, null is one of the types. */
function modern(node: Json): Json {
  if (Array.isArray(node)) return node.map(modern);
  if (node === null || typeof node !== 'object') return node;
  const { nullable, ...rest } = Object.fromEntries<Json>(
    Object.entries(node).map(([k, v]) => [k, modern(v)]),
  );
  if (nullable !== true) return nullable === undefined || nullable === false ? rest : { nullable, ...rest };
  if (typeof rest['type'] === 'string') {
    const list = rest['enum'];
    return {
      ...rest,
      type: [rest['type'], 'null'],
      ...(Array.isArray(list) ? { enum: [...list, null] } : {}),
    };
  }
  return { anyOf: [rest, { type: 'null' }] };
}

/** The document that is served, committed and compared. Every operation may answer with a problem. */
export function openApiDocument(app: INestApplication): OpenAPIObject {
  const config = new DocumentBuilder()
    .setTitle('Bayledger')
    .setDescription(
      'The server that an independent auto-repair shop runs on. Money is whole cents, book time whole hundredths of an hour, clocked time whole seconds.',
    )
    .setVersion('1')
    .setLicense('MIT', '')
    .addBearerAuth()
    .setOpenAPIVersion('3.1.0')
    .build();
  const raw = SwaggerModule.createDocument(app, config, {
    extraModels: [Problem],
    operationIdFactory: (controller, method) => `${controller.replace(/Controller$/, '')}_${method}`,
  });
  const document = modern(JSON.parse(JSON.stringify(raw)) as Json) as unknown as OpenAPIObject;
  document.info.license = { name: 'MIT' };
  for (const [path, item] of Object.entries(document.paths)) {
    for (const operation of Object.values(item as Record<string, Operation>)) complete(path, operation);
  }
  return document;
}

interface Operation {
  parameters?: { name: string; in: string }[];
  responses?: Record<string, unknown>;
}

const UUID_NAMES = /^(id|.+Id)$/;

/** What the decorators of the routes leave out: the problem answer, and the parameters of the path itself. */
function complete(path: string, operation: Operation): void {
  if (!operation.responses) return;
  operation.responses['default'] = {
    description: 'A problem document (RFC 9457).',
    content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
  };
  const known = (operation.parameters ?? []).filter((p) => p.in === 'path').map((p) => p.name);
  const missing = [...path.matchAll(/\{(\w+)\}/g)]
    .map((m) => m[1] ?? '')
    .filter((name) => !known.includes(name));
  if (missing.length === 0) return;
  operation.parameters = [
    ...missing.map((name) => ({
      name,
      in: 'path',
      required: true,
      schema: UUID_NAMES.test(name) ? { type: 'string', format: 'uuid' } : { type: 'string' },
    })),
    ...(operation.parameters ?? []),
  ];
}
