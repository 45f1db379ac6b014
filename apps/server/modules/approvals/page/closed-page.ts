import type { Fault } from '#libs/kernel';
import { framed, type Page } from './frame.js';
import { html } from './html.js';
import { WORDS } from './words.js';

const text = (value: unknown): string | null => (typeof value === 'string' ? value : null);

/** For a link that does not open: 404 says nothing about any shop, 410 says whom to call. */
export function closedPage(fault: Fault): Page {
  const name = text(fault.facts?.['shopName']);
  const phone = text(fault.facts?.['shopPhone']);
  if (name === null)
    return framed({
      status: 404,
      sender: null,
      title: WORDS.missing,
      main: html`<h1>${WORDS.missing}</h1>
        <p>${WORDS.missingNote}</p>`,
    });
  const heading = fault.code === 'link-revoked' ? WORDS.revoked : WORDS.expired;
  return framed({
    status: 410,
    sender: { name, phone },
    title: heading,
    main: html`<h1>${heading}</h1>
      <p>${WORDS.closedNote(name)}</p>
      <p>${WORDS.promise}</p>`,
  });
}
