import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import ts from 'typescript';

export const ROOT = resolve(import.meta.dirname, '../..');

export interface SourceFile {
  /** Path from the root, with forward slashes. */
  readonly path: string;
  readonly text: string;
  readonly lines: number;
  readonly tree: ts.SourceFile;
  /** Imported files of ours, as paths from the root; `typeOnly` vanishes at run time. */
  readonly imports: readonly { readonly to: string; readonly typeOnly: boolean }[];
  /** Packages and Node built-ins. */
  readonly packages: readonly string[];
}

function walk(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'node_modules' || entry.name === 'dist' ? [] : walk(path);
    return /\.tsx?$/.test(entry.name) && !entry.name.endsWith('.d.ts') ? [path] : [];
  });
}

function target(from: string, specifier: string): string | undefined {
  const alias = /^#libs\/(.+)$/.exec(specifier)?.[1];
  if (alias) return `libs/${alias}/index.ts`;
  const server = /^#server\/(.+)$/.exec(specifier)?.[1];
  if (server) return `apps/server/${server}.ts`;
  if (specifier === '#migrations') return 'migrations/index.ts';
  if (!specifier.startsWith('.')) return undefined;
  const base = resolve(dirname(join(ROOT, from)), specifier.replace(/\.js$/, ''));
  for (const ending of ['.ts', '.tsx', '/index.ts', '/index.tsx']) {
    try {
      if (statSync(base + ending).isFile()) return relative(ROOT, base + ending);
    } catch {
      // the next ending
    }
  }
  return undefined;
}

function read(path: string): SourceFile {
  const text = readFileSync(join(ROOT, path), 'utf8');
  const tree = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  const imports: { to: string; typeOnly: boolean }[] = [];
  const packages: string[] = [];
  tree.forEachChild((node) => {
    if (!ts.isImportDeclaration(node) && !ts.isExportDeclaration(node)) return;
    if (!node.moduleSpecifier || !ts.isStringLiteral(node.moduleSpecifier)) return;
    const typeOnly = ts.isImportDeclaration(node)
      ? node.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword
      : node.isTypeOnly;
    const to = target(path, node.moduleSpecifier.text);
    if (to === undefined) packages.push(node.moduleSpecifier.text);
    else imports.push({ to, typeOnly });
  });
  return { path, text, lines: text.split('\n').length - 1, tree, imports, packages };
}

/** Every TypeScript file below these folders. */
export function sourceFiles(...folders: string[]): SourceFile[] {
  return folders.flatMap((folder) => walk(join(ROOT, folder)).map((file) => read(relative(ROOT, file))));
}

export const isTest = (path: string): boolean => /\.spec\.tsx?$/.test(path);

/** Groups of files that import each other in a circle (strongly connected, Tarjan 1972). */
export function cycles(files: readonly SourceFile[]): string[][] {
  const graph = new Map(files.map((f) => [f.path, f.imports.filter((i) => !i.typeOnly).map((i) => i.to)]));
  const index = new Map<string, number>();
  const low = new Map<string, number>();
  const stack: string[] = [];
  const found: string[][] = [];
  const visit = (node: string): void => {
    index.set(node, index.size);
    low.set(node, index.size - 1);
    stack.push(node);
    for (const next of graph.get(node) ?? []) {
      if (!graph.has(next)) continue;
      if (!index.has(next)) {
        visit(next);
        low.set(node, Math.min(low.get(node) ?? 0, low.get(next) ?? 0));
      } else if (stack.includes(next)) {
        low.set(node, Math.min(low.get(node) ?? 0, index.get(next) ?? 0));
      }
    }
    if (low.get(node) === index.get(node)) {
      const group = stack.splice(stack.indexOf(node));
      if (group.length > 1 || (graph.get(node) ?? []).includes(node)) found.push(group);
    }
  };
  for (const file of files) if (!index.has(file.path)) visit(file.path);
  return found;
}

export interface SizedFunction {
  readonly where: string;
  readonly lines: number;
}

/** Functions, methods and constructors with a body, by their length in lines. */
export function functionsOf(file: SourceFile): SizedFunction[] {
  const found: SizedFunction[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && 'body' in node && node.body && ts.isBlock(node.body)) {
      const from = file.tree.getLineAndCharacterOfPosition(node.getStart()).line;
      const to = file.tree.getLineAndCharacterOfPosition(node.getEnd()).line;
      const name = node.name && 'text' in node.name ? node.name.text : 'function';
      found.push({ where: `${file.path}:${from + 1} ${name}`, lines: to - from + 1 });
    }
    node.forEachChild(visit);
  };
  file.tree.forEachChild(visit);
  return found;
}
