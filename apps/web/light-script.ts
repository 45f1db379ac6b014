import { createHash } from 'node:crypto';
import type { Plugin } from 'vite';

/**
 * Puts the remembered light on the page before the first paint. It has to be a blocking script of its own: modules
 * run after parsing, which would flash white under a lift, and the content policy allows no inline script.
 */
const source = `try{document.documentElement.dataset.light=localStorage.getItem('bayledger.light')==='dim'?'dim':'day'}catch{}`;

export function lightScript(): Plugin {
  const fileName = `assets/light-${createHash('sha256').update(source).digest('hex').slice(0, 8)}.js`;
  return {
    name: 'bayledger-light-script',
    configureServer(server) {
      server.middlewares.use(`/${fileName}`, (_request, response) => {
        response.setHeader('content-type', 'text/javascript').end(source);
      });
    },
    generateBundle() {
      this.emitFile({ type: 'asset', fileName, source });
    },
    transformIndexHtml: {
      order: 'post',
      handler: () => [{ tag: 'script', attrs: { src: `/${fileName}` }, injectTo: 'head-prepend' }],
    },
  };
}
