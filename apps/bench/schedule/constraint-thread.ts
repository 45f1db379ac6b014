import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { runInThisContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';

/**
 * A thread that is a browser's worker as far as the WebAssembly build of MiniZinc can tell: the package itself runs that
 * build in browsers only.
 */
const port = parentPort;
if (port === null) throw new Error('This runs in a worker thread only.');

type Listener = (event: { readonly data: unknown }) => void;

const require = createRequire(import.meta.url);
const folder = dirname(require.resolve('minizinc/minizinc.wasm'));
const script = join(folder, 'minizinc-worker.js');
const listeners: Listener[] = [];
const hear = (data: unknown): void => {
  for (const listener of listeners) listener({ data });
};

Object.assign(globalThis, {
  ...{ self: globalThis, require, __dirname: folder, __filename: script },
  addEventListener: (type: string, listener: Listener) => {
    if (type === 'message') listeners.push(listener);
  },
  postMessage: (message: unknown) => {
    port.postMessage(message);
  },
});
runInThisContext(readFileSync(script, 'utf8'), { filename: script });
port.on('message', hear);
hear({ wasmURL: join(folder, 'minizinc.wasm'), dataURL: join(folder, 'minizinc.data') });
