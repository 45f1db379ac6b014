import type { INestApplication } from '@nestjs/common';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { Problem } from './answers.js';

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** OpenAPI 3.1 is JSON Schema 2020-12: `nullable` is gone, null is one of the types. */
function modern(node: Json): Json {
  if (Array.isArray(node)) return node.map(modern);
  if (node === null || typeof node !== 'object') return node;
  const { nullable, ...rest } = Object.fromEntries(Object.entries(node).map(([k, v]) => [k, modern(v)])) as {
    [key: string]: Json;
  };
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
  for (const path of Object.values(document.paths)) {
    for (const operation of Object.values(path as Record<string, { responses?: Record<string, unknown> }>)) {
      if (!operation.responses) continue;
      operation.responses['default'] = {
        description: 'A problem document (RFC 9457).',
        content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
      };
    }
  }
  return document;
}
