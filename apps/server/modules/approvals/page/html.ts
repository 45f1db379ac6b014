/** A piece of HTML that is safe to put into HTML. */
export class Html {
  constructor(readonly text: string) {}
}

type Piece = Html | string | number | false | null | undefined | readonly Piece[];

const escaped = (text: string): string => text.replace(/[&<>"'`]/g, (c) => `&#${c.charCodeAt(0)};`);

function render(piece: Piece): string {
  if (piece === null || piece === undefined || piece === false) return '';
  if (piece instanceof Html) return piece.text;
  if (typeof piece === 'string' || typeof piece === 'number') return escaped(String(piece));
  return piece.map(render).join('');
}

/**
 * HTML with every value escaped, as text and as quoted attribute alike; only `Html` goes in as it is. Values stand between
 * tags or inside quotes, never as the name of a tag or attribute and never inside a style or script.
 */
export function html(parts: TemplateStringsArray, ...values: Piece[]): Html {
  // A line break and its indent are how the source is laid out: for the reader of the page one space at most.
  const laidOut = parts.map((part) => part.replace(/\n\s*/g, ' '));
  return new Html(laidOut.reduce((text, part, at) => text + render(values[at - 1]) + part));
}
