import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type {} from '@fastify/static';
import type { FastifyReply } from 'fastify';
import { webFolder } from '../../platform/http/equip.js';

/** Without a build of the web there is nothing to send, and no plug-in that could. */
export function sendPage(reply: FastifyReply, file: string): FastifyReply {
  if (!existsSync(join(webFolder(), file)))
    return reply
      .code(404)
      .type('text/plain; charset=utf-8')
      .send('The web pages are not built. Run: npm run build');
  return reply.header('cache-control', 'no-cache').sendFile(file, webFolder());
}
