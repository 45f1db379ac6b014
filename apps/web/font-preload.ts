import type { Plugin } from 'vite';

/** The two files that every page writes with; letters beyond Latin-1 are loaded when one is met. */
const FIRST = /(^|\/)(archivo|martian-mono)-latin-wdth-normal-[^/]*\.woff2$/;

/**
 * Asks for the fonts with the page itself. Found through the style sheet they come after the first lines are written,
 * and on a machine without the stand-in's local fonts those lines then break anew and what is below them moves.
 */
export function fontPreload(): Plugin {
  return {
    name: 'bayledger-font-preload',
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { bundle }) =>
        Object.keys(bundle ?? {})
          .filter((file) => FIRST.test(file))
          .map((file) => ({
            tag: 'link',
            attrs: { rel: 'preload', as: 'font', type: 'font/woff2', href: `/${file}`, crossorigin: '' },
            injectTo: 'head-prepend' as const,
          })),
    },
  };
}
