import type { Figures } from '#libs/estimate';
import type { FrozenRevision } from '#libs/estimate';
import type { Formats } from './formats.js';
import { html, type Html } from './html.js';
import { verdictMark } from './marks.js';
import type { OwnerLine } from './model.js';
import { WORDS } from './words.js';

const cell = (name: string, amount: string): Html =>
  html`<div>
    <dt>${name}</dt>
    <dd>${amount}</dd>
  </div>`;

/** Parts and labour as two figures that are always there, and what else makes the total. */
export function figuresRow(figures: Figures, formats: Formats): Html {
  const labour = WORDS.labourOf(formats.hours(figures.hundredths));
  return html`<dl class="figures">
    ${cell(WORDS.parts, formats.money(figures.partsCents + figures.coreCents))}${cell(labour, formats.money(figures.labourCents))}${cell(WORDS.rest, formats.money(figures.suppliesCents + figures.taxCents))}
  </dl>`;
}

function itemText({
  words,
  quantityHundredths,
  condition,
}: FrozenRevision['lines'][number]['items'][number]): string {
  const count = quantityHundredths / 100;
  return [quantityHundredths === 100 ? words : `${count} × ${words}`, condition].filter(Boolean).join(', ');
}

/** What was seen, what was measured, why it matters and what happens if it waits. */
export function findingPart(line: OwnerLine, token: string): Html {
  const measured = line.measured.map(
    ({ reading, limit, source }) =>
      html`<p>
        ${WORDS.measured}:
        <b>${reading}</b
        >${limit !== null && html`, ${WORDS.limit(limit)}`}${source !== null && html` <span class="small">(${source})</span>`}
      </p>`,
  );
  const photos = line.photos.map(
    (id, at) =>
      html`<a href="/o/${token}/photos/${id}"
        ><img
          src="/o/${token}/photos/${id}?size=small"
          alt="${WORDS.photo(line.title, at + 1)}"
          width="104"
          height="104"
          loading="lazy"
      /></a>`,
  );
  return html`${line.verdict !== null && verdictMark(line.verdict)}${line.mayDrive !== null && html`<p><b>${line.mayDrive}</b></p>`}
    <p>${line.why}</p>
    ${measured}${line.consequence !== null && html`<p><b>${WORDS.waits}:</b> ${line.consequence}</p>`}${photos.length > 0 && html`<div class="photos">${photos}</div>`}`;
}

/** What the money is for: the items and the deposit in them. */
export function itemsPart(line: OwnerLine, formats: Formats): Html {
  const deposit = line.alone.coreCents;
  return html`${
    line.items.length > 0 &&
    html`<ul class="small">
      ${line.items.map((item) => html`<li>${itemText(item)}</li>`)}
    </ul>`
  }${deposit > 0 && html`<p class="small">${WORDS.deposit(formats.money(deposit))}</p>`}`;
}
