import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import compress from '@fastify/compress';
import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import multipart from '@fastify/multipart';
import rateLimit from '@fastify/rate-limit';
import type { FastifyReply } from 'fastify';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { SwaggerModule } from '@nestjs/swagger';
import type { Config } from '../config.js';
import { frontDoor } from './front-door.js';
import { openApiDocument } from './openapi.js';
import { validation } from './validation.js';

export const API_PREFIX = 'api/v1';
const PHOTO_LIMIT = 25 * 1_048_576;

/** What the staff's pages may load; style attributes carry positions on the board. */
const PAGE_POLICY = {
  defaultSrc: [`'none'`],
  scriptSrc: [`'self'`],
  styleSrc: [`'self'`],
  styleSrcAttr: [`'unsafe-inline'`],
  imgSrc: [`'self'`, 'data:', 'blob:'],
  fontSrc: [`'self'`],
  connectSrc: [`'self'`],
  workerSrc: [`'self'`],
  manifestSrc: [`'self'`],
  formAction: [`'self'`],
  baseUri: [`'none'`],
  frameAncestors: [`'none'`],
};

/** dist/web beside the compiled server; under Jest the source tree's dist. */
export function webFolder(): string {
  const here = dirname(fileURLToPath(import.meta.url));
  const beside = join(here, '../../../../web');
  return existsSync(join(beside, 'assets')) ? beside : join(here, '../../../../dist/web');
}

/** Plug-ins, security headers, limits, validation, the API page and the built web pages. */
export async function equip(app: NestFastifyApplication, config: Config): Promise<void> {
  app.setGlobalPrefix(API_PREFIX, {
    exclude: ['o/*path', 'problems', 'problems/*path', 'sign-in', ''],
  });
  frontDoor(app.getHttpAdapter().getInstance(), `/${API_PREFIX}`);
  await app.register(cookie);
  await app.register(multipart, { limits: { fileSize: PHOTO_LIMIT, files: 1, fields: 10 } });
  await app.register(compress, { threshold: 1024, encodings: ['gzip', 'deflate'] });
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: PAGE_POLICY },
    crossOriginEmbedderPolicy: false,
    hsts: config.production ? undefined : false,
  });
  await app.register(rateLimit, { global: false });
  app.useGlobalPipes(validation());
  app.enableShutdownHooks([]);
  // Built when first asked for: it takes longer than the rest of the start, and most starts are never asked.
  SwaggerModule.setup('api/docs', app, () => openApiDocument(app), {
    jsonDocumentUrl: 'api/openapi.json',
    yamlDocumentUrl: 'api/openapi.yaml',
    customSiteTitle: 'Bayledger API',
  });
  const web = webFolder();
  if (existsSync(web))
    app.useStaticAssets({
      root: web,
      prefix: '/',
      wildcard: false,
      index: false,
      cacheControl: false,
      // Nest's own types still have the plain response here, which is what older versions of the plug-in gave.
      setHeaders: (reply: unknown, path: string) =>
        void (reply as FastifyReply).header('cache-control', cachingOf(path)),
    });
}

/** The names in assets/ carry a digest of what is in the file; a page has one name for ever and is asked for each time. */
function cachingOf(path: string): string {
  return /[\\/]assets[\\/][^\\/]+$/.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache';
}
