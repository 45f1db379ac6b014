import { parsePhoneNumberFromString } from 'libphonenumber-js';
import { Html, html } from './html.js';
import { contentPolicy, pageStyle } from './styles.js';
import { LANGUAGE, WORDS } from './words.js';

/** A page as it goes out. */
export interface Page {
  readonly status: number;
  readonly body: string;
  readonly policy: string;
}

export interface Sender {
  readonly name: string;
  readonly phone: string | null;
}

interface Frame {
  readonly status?: number;
  readonly sender: Sender | null;
  readonly title: string;
  readonly main: Html;
  /** Style rules for this page only; made of our own numbers, never of anybody's words. */
  readonly rules?: string;
}

/** In groups, as people read a number; as it is where it is not one. */
const readable = (phone: string): string => parsePhoneNumberFromString(phone)?.formatInternational() ?? phone;
const dialled = (phone: string): string => phone.replace(/[^+\d]/g, '');

function head({ name, phone }: Sender): Html {
  return html`<header>
    <span>${name}</span
    >${phone !== null && html`<a href="tel:${dialled(phone)}">${WORDS.call}<span class="small"> ${readable(phone)}</span></a>`}
  </header>`;
}

/** Head, style and foot that all of the owner's pages share. */
export function framed({ status = 200, sender, title, main, rules }: Frame): Page {
  const styles = pageStyle(rules);
  // A style element ends at the first "</": our rules hold none, and the policy would refuse any that did.
  const sheets = styles.map(({ text }) => new Html(`<style>${text}</style>`));
  const { text } = html`<!doctype html>
    <html lang="${LANGUAGE}">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width,initial-scale=1" />
        <meta name="robots" content="noindex,nofollow" />
        <meta name="referrer" content="no-referrer" />
        <title>${title}</title>
        ${sheets}
      </head>
      <body>
        ${sender && head(sender)}
        <main>${main}</main>
      </body>
    </html>`;
  return { status, body: text, policy: contentPolicy(styles) };
}
