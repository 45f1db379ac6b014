import type { FrozenRevision } from '#libs/estimate';
import { html, type Html } from './html.js';
import type { OwnerLine } from './model.js';
import { WORDS } from './words.js';

/** Which other lines this one needs, and instead of which it would be done; nothing where it stands by itself. */
export function relationPart(line: OwnerLine, { lines }: FrozenRevision): Html {
  const needs = lines.filter(({ id }) => line.choice?.requires.includes(id));
  const others = lines.filter(
    ({ id, choice }) => line.choice?.excludes.includes(id) || choice?.excludes.includes(line.id),
  );
  const said = [
    ...needs.map(({ title }) => WORDS.needs(title)),
    ...others.map(({ title }) => WORDS.insteadOf(title)),
  ];
  return html`${said.map((words) => html`<p>${words}</p>`)}`;
}
