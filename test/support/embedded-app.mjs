// A small program with a database of its own, for tests that kill it. Prints one JSON object a line.
//   node embedded-app.mjs DATA_DIR [write]
// `write`: inserts rows one after another and prints each once the database has acknowledged it.
import pg from 'pg';
import { startEmbeddedPostgres } from '../../dist/apps/server/platform/database/embedded/index.js';

const say = (object) => process.stdout.write(`${JSON.stringify(object)}\n`);
// The end of the input says that whoever started this program is gone, killed perhaps.
process.stdin.resume().on('end', () => process.exit(4));

const [dataDir = '', mode] = process.argv.slice(2);

async function writeForever(pool) {
  for (let n = 1; ; n += 1) {
    try {
      await pool.query('insert into acknowledged (n) values ($1)', [n]);
      say({ acknowledged: n });
    } catch (error) {
      say({ refused: n, message: error.message });
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }
}

try {
  const server = await startEmbeddedPostgres({ dataDir, onEvent: (event) => say({ event }) });
  const pool = new pg.Pool({ ...server.conn, max: 4 });
  pool.on('error', (error) => say({ poolError: error.message }));
  process.on('SIGTERM', () => {
    void pool
      .end()
      .then(() => server.stop())
      .then(() => process.exit(0));
  });
  await pool.query('create table if not exists acknowledged (n int not null)');
  say({
    ready: true,
    conn: server.conn,
    adopted: server.adopted,
    dataDir: server.dataDir,
    timings: server.timings,
  });
  if (mode === 'write') void writeForever(pool);
} catch (error) {
  say({ failed: error.code, holder: error.holder, message: error.message });
  process.exit(3);
}
