import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readConfig } from './platform/config.js';
import { openApiDocument } from './platform/http/openapi.js';
import { startServer } from './start-server.js';

/** Writes the OpenAPI document beside this file's source: `npm run openapi`. A test compares it with the server's. */
const dataDir = mkdtempSync(join(tmpdir(), 'bayledger-openapi-'));
try {
  const server = await startServer(readConfig({ DATA_DIR: dataDir, PORT: '0', DEMO_SHOP: 'no' }));
  const document = openApiDocument(server.app);
  writeFileSync(join(process.cwd(), 'apps/server/openapi.json'), `${JSON.stringify(document, null, 2)}\n`);
  await server.stop();
} finally {
  rmSync(dataDir, { recursive: true, force: true });
}
