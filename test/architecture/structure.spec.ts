import { execFileSync } from 'node:child_process';
import ts from 'typescript';
import { cycles, functionsOf, isTest, ROOT, sourceFiles, type SourceFile } from './source-files.js';

/** Left may not import right; the same list stands in DEVELOPERS.md. */
const MODULES = [
  'about',
  'identity',
  'vehicles',
  'floor',
  'catalogue',
  'repair-orders',
  'inspections',
  'estimates',
  'work-orders',
  'approvals',
  'contingencies',
  'scheduling',
  'time-clock',
  'planning',
  'reservations',
  'what-ifs',
  'board',
  'review',
];
const LIBS: readonly (readonly string[])[] = [
  ['kernel'],
  ['money', 'access', 'vin', 'cautions', 'chance'],
  ['time', 'statistics', 'labour', 'inspection'],
  ['schedule', 'estimate', 'plan', 'machines', 'project', 'tardiness'],
  ['workflow', 'approval', 'choice', 'range', 'what-if'],
  ['review'],
];
const FILE_LIMIT = 400;
const FUNCTION_LIMIT = 80;
const DEPENDENCIES_LIMIT = 6;

const server = sourceFiles('apps/server');
const libs = sourceFiles('libs').filter((f) => !isTest(f.path));
const ours = [
  ...server,
  ...libs,
  ...sourceFiles('migrations', 'apps/tour', 'apps/calc', 'apps/bench', 'apps/web'),
].filter((f) => !isTest(f.path));

const libOf = (path: string): string | undefined => /^libs\/([^/]+)\//.exec(path)?.[1];
const moduleOf = (path: string): string | undefined => /^apps\/server\/modules\/([^/]+)\//.exec(path)?.[1];
const edges = (files: readonly SourceFile[]): { from: string; to: string }[] =>
  files.flatMap((f) => f.imports.map((i) => ({ from: f.path, to: i.to })));

describe('the structure of the code', () => {
  it('has the top level that the README names, and nothing else', () => {
    const tracked = execFileSync('git', ['ls-tree', '--name-only', 'HEAD'], { cwd: ROOT, encoding: 'utf8' });
    const visible = tracked.split('\n').filter((name) => name !== '' && !name.startsWith('.'));
    const allowed = [
      ...['README.md', 'DEVELOPERS.md', 'package.json', 'tsconfig.json', 'apps', 'libs', 'migrations'],
      ...['docker-compose.yml', 'test', 'package-lock.json', 'LICENSE', 'eslint.config.mjs'],
    ];
    expect(visible.filter((name) => !allowed.includes(name))).toEqual([]);
  });

  it('has no import cycle', () => {
    expect(cycles(ours)).toEqual([]);
  });

  it('keeps the libs pure: no packages but luxon, no built-ins, no clock, no chance, no environment', () => {
    expect(
      libs.flatMap((f) => f.packages.filter((p) => p !== 'luxon').map((p) => `${f.path}: ${p}`)),
    ).toEqual([]);
    expect(libs.flatMap(impureUses)).toEqual([]);
  });

  it('lets a lib import only libs of an earlier row', () => {
    const row = (lib: string): number => LIBS.findIndex((names) => names.includes(lib));
    const known = new Set(libs.map((f) => libOf(f.path)));
    expect([...known].filter((lib) => lib === undefined || row(lib) < 0)).toEqual([]);
    const wrong = edges(libs).filter(({ from, to }) => {
      const [a, b] = [libOf(from), libOf(to)];
      return a !== b && (b === undefined || row(b) >= row(a ?? ''));
    });
    expect(wrong).toEqual([]);
  });

  it('lets a module import only earlier modules, and only through their index.ts', () => {
    const known = new Set(server.map((f) => moduleOf(f.path)).filter((m) => m !== undefined));
    expect([...known].filter((m) => !MODULES.includes(m))).toEqual([]);
    const wrong = edges(server).filter(({ from, to }) => {
      const [a, b] = [moduleOf(from), moduleOf(to)];
      if (b === undefined || a === b) return false;
      if (a === undefined) return from.startsWith('apps/server/platform/');
      return MODULES.indexOf(b) > MODULES.indexOf(a) || to !== `apps/server/modules/${b}/index.ts`;
    });
    expect(wrong).toEqual([]);
  });

  it('keeps the web apart from the server, and both libs and platform from the modules', () => {
    const wrong = edges(ours).filter(
      ({ from, to }) =>
        (from.startsWith('apps/web/') && !/^(apps\/web|libs)\//.test(to)) ||
        (from.startsWith('libs/') && !to.startsWith('libs/')) ||
        (from.startsWith('apps/calc/') && !/^(apps\/calc|libs)\//.test(to)) ||
        (from.startsWith('apps/bench/') && !/^(apps\/bench|libs)\//.test(to)) ||
        (from.startsWith('apps/tour/') && /^apps\/server\/modules/.test(to)),
    );
    expect(wrong).toEqual([]);
  });

  it('reaches the database only through the unit of work', () => {
    const allowed = /^apps\/server\/(platform\/|start-server|modules\/about\/about\.controller)/;
    const wrong = server.filter(
      (f) => /\bDataSource\b/.test(f.text) && !allowed.test(f.path) && f.path !== 'apps/server/app.module.ts',
    );
    expect(wrong.map((f) => f.path)).toEqual([]);
  });

  it('keeps controllers free of decisions', () => {
    const controllers = server.filter(
      (f) => f.path.includes('/modules/') && f.path.endsWith('.controller.ts'),
    );
    expect(controllers.length).toBeGreaterThan(5);
    const deciding = controllers.filter((f) => contains(f, (node) => ts.isIfStatement(node)));
    expect(deciding.map((f) => f.path)).toEqual([]);
  });

  it('keeps files, functions and constructors small', () => {
    expect(
      ours
        .filter((f) => f.lines > FILE_LIMIT && !f.path.endsWith('schema.d.ts'))
        .map((f) => `${f.path}: ${f.lines}`),
    ).toEqual([]);
    const long = ours
      .filter((f) => !f.path.startsWith('migrations/'))
      .flatMap(functionsOf)
      .filter((f) => f.lines > FUNCTION_LIMIT);
    expect(long).toEqual([]);
    expect(server.flatMap(crowdedConstructors)).toEqual([]);
  });
});

function contains(file: SourceFile, wanted: (node: ts.Node) => boolean): boolean {
  const visit = (node: ts.Node): boolean =>
    wanted(node) || (ts.forEachChild(node, (c) => visit(c) || undefined) ?? false);
  return visit(file.tree);
}

function impureUses(file: SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const text = ts.isPropertyAccessExpression(node) || ts.isNewExpression(node) ? node.getText() : '';
    if (/^(Date\.now|Math\.random|performance\.now|crypto\.|process\.|DateTime\.(now|local|utc)$)/.test(text))
      found.push(`${file.path}: ${text}`);
    if (
      ts.isNewExpression(node) &&
      node.expression.getText() === 'Date' &&
      (node.arguments?.length ?? 0) === 0
    )
      found.push(`${file.path}: new Date() reads the clock`);
    ts.forEachChild(node, visit);
  };
  visit(file.tree);
  return found;
}

function crowdedConstructors(file: SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isConstructorDeclaration(node) && node.parameters.length > DEPENDENCIES_LIMIT)
      found.push(`${file.path}: ${node.parameters.length} dependencies`);
    ts.forEachChild(node, visit);
  };
  visit(file.tree);
  return found;
}
