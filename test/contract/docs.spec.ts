import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { PROBLEMS } from '#server/platform/http/problem-codes';
import { ROOT } from '../architecture/source-files.js';

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

describe('what is written about the code', () => {
  const developers = read('DEVELOPERS.md');
  const readme = read('README.md');

  it('DEVELOPERS.md lists every problem code with its status and title, and none that does not exist', () => {
    const listed = [...developers.matchAll(/^\| `([a-z-]+)`\s+\| (\d{3})\s+\| (.+?)\s+\|$/gm)].map((m) => [
      m[1],
      Number(m[2]),
      m[3],
    ]);
    const known = Object.entries(PROBLEMS).map(([code, { status, title }]) => [code, status, title]);
    expect(listed).toEqual(known);
  });

  it('DEVELOPERS.md names every module and lib in its import order', () => {
    const order = developers.slice(
      developers.indexOf('## Import order'),
      developers.indexOf('## How to add'),
    );
    const words = new Set(order.match(/[a-z]+(-[a-z]+)*/g));
    const folders = [...readdirSync(join(ROOT, 'libs')), ...readdirSync(join(ROOT, 'apps/server/modules'))];
    expect(folders.filter((name) => !words.has(name))).toEqual([]);
  });

  it('DEVELOPERS.md numbers its decisions without a gap, and the code cites only those', () => {
    const numbers = [...developers.matchAll(/^\*\*(D-\d{3}) /gm)].map((m) => m[1]);
    expect(numbers).toEqual(numbers.map((_n, i) => `D-${String(i + 1).padStart(3, '0')}`));
  });

  it('README.md names the computations of calc, and every script that it tells to run exists', () => {
    const names = readdirSync(join(ROOT, 'apps/calc/computations')).join(' ');
    for (const name of ['vin', 'labour', 'allocate', 'tax', 'invoice-tax', 'punch', 'hours', 'wilson']) {
      expect(readme).toContain(`\`${name}\``);
      expect(names).toContain(name);
    }
    const scripts = Object.keys((JSON.parse(read('package.json')) as { scripts: object }).scripts);
    const told = [...`${readme}${developers}`.matchAll(/npm run (?:-s )?([a-z]+(?::[a-z]+)*)/g)].map(
      (m) => m[1],
    );
    expect(told.filter((name) => name !== undefined && !scripts.includes(name))).toEqual([]);
  });

  it('every setting of the README is read, and every setting read is in the README', () => {
    const config = read('apps/server/platform/config.ts');
    const used = new Set(
      [...config.matchAll(/'([A-Z][A-Z_]{3,})'/g)].map((m) => m[1]).filter((n) => n !== 'EEXIST'),
    );
    const listed = new Set([...readme.matchAll(/`([A-Z][A-Z_]{3,})(?:=[a-z]+)?`/g)].map((m) => m[1]));
    listed.delete('BAYLEDGER_URL');
    expect([...listed].sort()).toEqual([...used].sort());
  });
});
