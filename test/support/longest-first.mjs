import { readFileSync, statSync } from 'node:fs';
import Sequencer from '@jest/test-sequencer';

const seconds = JSON.parse(readFileSync(new URL('longest-first.json', import.meta.url), 'utf8'));

/**
 * Starts the files that take longest first, so that none of them begins when everything else is done. The seconds are
 * those of one run and need not be right; a file without any is placed by its size, below all that have some.
 */
export default class LongestFirst extends Sequencer {
  sort(tests) {
    const length = new Map(
      tests.map(({ path, context }) => {
        const name = path.slice(context.config.rootDir.length + 1).replaceAll('\\', '/');
        return [path, seconds[name] ?? Math.min(1, statSync(path).size / 1e6)];
      }),
    );
    return [...tests].sort((a, b) => length.get(b.path) - length.get(a.path));
  }
}
