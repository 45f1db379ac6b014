import { html, type Html } from './html.js';

/** Bolt-head condition marks: the worse it is, the more ink; the last one has sheared. The word always stands beside. */
const HEAD = 'M12 1.8 20.8 6.9v10.2L12 22.2 3.2 17.1V6.9z';

const INSIDE: Readonly<Record<string, Html>> = {
  Sound: html`<path d="${HEAD}" />`,
  Watch: html`<path d="${HEAD}" /><path d="M3.2 12h17.6v5.1L12 22.2 3.2 17.1z" class="ink" />`,
  Repair: html`<path d="${HEAD}" class="ink" />`,
  Unsafe: html`<path
    class="ink none"
    d="M10.7 1.7l1 .6-3.6 8.4 4.200 2.900-4.100 8.200L.8 18.800V7.400zM16.500 1.300l6.700 3.900v11.400L13.600 22.200l4.200-11.900-4.200-2.900z"
  />`,
  'Not seen': html`<path d="${HEAD}" class="dots" />`,
};

const CLASS: Readonly<Record<string, string>> = { Unsafe: 'verdict unsafe' };

/** The mark with its word. */
export function verdictMark(word: string): Html {
  const inside = INSIDE[word];
  return html`<p class="${CLASS[word] ?? 'verdict'}">
    ${inside && html`<svg viewBox="0 0 24 24" aria-hidden="true">${inside}</svg>`}${word}
  </p>`;
}
