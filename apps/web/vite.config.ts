import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { fontPreload } from './font-preload.js';
import { lightScript } from './light-script.js';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** One entry per audience: every `*.html` beside this file is a page; adding one needs no change here. */
const pages = readdirSync(here('.')).filter((file) => file.endsWith('.html'));

/** What every page of the staff starts with: in one piece it packs tighter, and a page more does not cut it finer. */
const FRAME = new RegExp(
  [
    'apps/web/src/(session|api)/',
    'apps/web/src/live/(use-live|coalesce)',
    'apps/web/src/ui/(light|light-switch|session-tools|sheet-page|status-line|role-words|marks|refusal|ways)\\.',
    'apps/web/src/board/(may-plan|zone-time)\\.',
    'apps/web/src/estimate/(answers|use-late|use-settled|today)\\.',
    'libs/kernel/',
  ].join('|'),
);

export default defineConfig({
  root: here('.'),
  base: '/',
  appType: 'mpa',
  plugins: [react(), lightScript(), fontPreload()],
  resolve: { alias: [{ find: /^#libs\/(.*)$/, replacement: here('../../libs/$1/index.ts') }] },
  build: {
    outDir: here('../../dist/web'),
    emptyOutDir: true,
    target: 'es2022',
    // The pages are served with a policy that allows no inline script, style block or font.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: Object.fromEntries(pages.map((file) => [file.replace('.html', ''), here(file)])),
      // What changes only with its version stays in the cache when a page changes.
      output: {
        codeSplitting: {
          groups: [
            { name: 'react', test: /node_modules[\\/](react|react-dom|scheduler|@tanstack)[\\/]/ },
            { name: 'frame', test: FRAME },
          ],
        },
      },
    },
  },
  server: {
    host: '127.0.0.1',
    fs: { allow: [here('../..')] },
    proxy: { '/api': process.env.BAYLEDGER_API ?? 'http://127.0.0.1:3000' },
  },
});
