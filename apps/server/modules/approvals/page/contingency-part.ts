import { contingencyState, type Answer, type ContingencyAnswer } from '#libs/approval';
import type { FrozenContingency } from '#libs/estimate';
import { offeredContingency, type ContingencyFacts } from '../../estimates/index.js';
import { chanceWords } from './chance-words.js';
import { CONTINGENCY_WORDS as WORDS } from './contingency-words.js';
import { html, Html } from './html.js';
import { recordedAnswer, type OwnerLine, type OwnerModel } from './model.js';

/** Style rules of these parts, sent only where there are any. */
export const CONTINGENCY_RULES = [
  '.maybe{border:0;border-top:1.5px solid var(--edge);padding:13px 16px 16px;min-width:0;display:grid;gap:8px}',
  '.maybe p{color:var(--ink-2)}.maybe b{color:var(--ink)}',
  '.maybe label{display:flex;align-items:center;gap:12px;min-height:56px;padding:8px 12px;border:2px solid var(--edge);border-radius:4px;font-weight:700;line-height:1.2;cursor:pointer}',
  'input[type=checkbox]{appearance:none;color:inherit;width:24px;height:24px;margin:0;border:2px solid;border-radius:3px;flex:none}',
  'input[type=checkbox]:checked{background:currentColor;box-shadow:inset 0 0 0 4px var(--ink)}',
  '.maybe label:has(:checked){background:var(--ink);color:var(--on-ink);border-color:var(--ink)}',
  '.maybe label:has(:focus-visible){outline:3px solid var(--focus);outline-offset:2px}.maybe input:focus-visible{outline:0}',
  '.total .small{flex-basis:100%}',
].join('');

/** A contingency by its place on the page, which is what its field is called after. */
export interface ContingencyPlace {
  readonly key: string;
  readonly line: OwnerLine;
  readonly at: number;
  readonly shown: FrozenContingency;
  readonly facts: ContingencyFacts;
}

/** Keys of what is ticked; undefined where no boxes were shown. */
export type Ticked = ReadonlySet<string> | undefined;

function placesOf({ approval }: OwnerModel, line: OwnerLine, at: number): ContingencyPlace[] {
  return (line.contingencies ?? []).flatMap((shown, index) => {
    const facts = approval.offer.contingencies.find(({ id }) => id === shown.id);
    return facts === undefined ? [] : [{ key: `${at}-${index}`, line, at, shown, facts }];
  });
}

/** Every contingency of the page that can still be answered. */
export function openContingencies(model: OwnerModel): ContingencyPlace[] {
  return model.approval.document.lines
    .flatMap((line, at) => placesOf(model, line, at))
    .filter(({ facts }) => facts.trigger === null);
}

export const hasContingencies = ({ approval }: OwnerModel): boolean =>
  approval.offer.contingencies.length > 0;

/** Those whose line is approved with these answers: the only ones that an answer can count for. */
function countingWith(model: OwnerModel, answers: ReadonlyMap<number, Answer>): ContingencyPlace[] {
  return openContingencies(model).filter(
    ({ line, at }) => (answers.get(at) ?? recordedAnswer(model, line)) === 'approved',
  );
}

/** What was sent, as answers: an empty box of a line with a yes is "ask me first". */
export function givenContingencies(
  model: OwnerModel,
  answers: ReadonlyMap<number, Answer>,
  ticked: Ticked,
): ContingencyAnswer[] {
  if (ticked === undefined) return [];
  return countingWith(model, answers).map(({ key, facts }) => ({
    contingencyId: facts.id,
    agreed: ticked.has(key),
  }));
}

function extraWords({ formats }: OwnerModel, { hundredths, items }: FrozenContingency): string {
  const hours = hundredths === 0 ? [] : [WORDS.hours(formats.hours(hundredths))];
  const parts = items.map(({ words, quantityHundredths }) =>
    quantityHundredths === 100 ? words : `${quantityHundredths / 100} × ${words}`,
  );
  return WORDS.extra([...hours, ...parts]);
}

function happened({ formats, token }: OwnerModel, { shown, facts }: ContingencyPlace): Html | null {
  const { trigger } = facts;
  if (trigger === null) return null;
  return html`<p>
      <b>${shown.what}</b>. ${WORDS.happened(formats.moment(trigger.triggeredAt))} ${trigger.reason}
    </p>
    <p><b>${WORDS.charged(formats.money(trigger.totalCents), formats.money(facts.capCents))}</b></p>
    <div class="photos">
      <a href="/o/${token}/photos/${trigger.photoId}"
        ><img
          src="/o/${token}/photos/${trigger.photoId}?size=small"
          alt="${WORDS.photo(shown.what)}"
          width="104"
          height="104"
          loading="lazy"
      /></a>
    </div>`;
}

function choice(model: OwnerModel, place: ContingencyPlace, ticked: Ticked): Html {
  const { shown, facts, key } = place;
  const cap = model.formats.money(facts.capCents);
  const isTicked = ticked === undefined ? facts.answer?.agreed === true : ticked.has(key);
  return html`<p><b>${shown.what}</b></p>
    <p>${WORDS.chance(chanceWords(shown.chancePpm))} ${extraWords(model, shown)} <b>${WORDS.upTo(cap)}</b></p>
    <label
      ><input
        type="checkbox"
        name="c${key}"
        value="1"
        ${isTicked && new Html(' checked')}
      />${WORDS.agree(cap)}</label
    >`;
}

/** Under a line: what may happen, how likely, what it would cost at most, and a box to agree in advance. */
export function contingencyChoices(
  model: OwnerModel,
  line: OwnerLine,
  at: number,
  ticked?: Ticked,
): Html | false {
  const places = placesOf(model, line, at);
  if (places.length === 0) return false;
  const open = places.filter(({ facts }) => facts.trigger === null);
  return html`<fieldset class="maybe">
    <legend>${WORDS.legend(line.title)}</legend>
    ${places.map((place) => happened(model, place))}${
      open.length > 0 &&
      html`<p>${WORDS.lead}</p>
        ${open.map((place) => choice(model, place, ticked))}
        <p class="small">${WORDS.askFirst}</p>`
    }
  </fieldset>`;
}

/** Says that boxes were shown, since an empty one is not sent. */
export function boxesShown(model: OwnerModel): Html | false {
  return openContingencies(model).length > 0 && html`<input type="hidden" name="boxes" value="1" />`;
}

interface Reviewed {
  readonly part: Html | false;
  /** Beside the total. */
  readonly atMost: Html | false;
  readonly hidden: Html;
}

/** The second look: what is agreed to in advance stands by itself, with what it may come to beside the total. */
export function reviewedContingencies(
  model: OwnerModel,
  answers: ReadonlyMap<number, Answer>,
  ticked: Ticked,
  totalCents: number,
): Reviewed {
  const { formats } = model;
  const isTicked = ({ key, facts }: ContingencyPlace): boolean =>
    ticked === undefined ? facts.answer?.agreed === true : ticked.has(key);
  const counting = countingWith(model, answers);
  const caps = counting.filter(isTicked).reduce((sum, { facts }) => sum + facts.capCents, 0);
  const all = openContingencies(model).filter(isTicked);
  return {
    part:
      counting.length > 0 &&
      html`<h2 class="group">${WORDS.heading}</h2>
        <section class="ticket">
          <div class="body">
            ${counting.map((place) => html`<p><b>${place.shown.what}.</b> ${isTicked(place) ? WORDS.goAhead(formats.money(place.facts.capCents)) : WORDS.ask}</p>`)}
          </div>
        </section>
        <p class="small">${WORDS.note}</p>`,
    atMost: caps > 0 && html`<span class="small">${WORDS.atMost(formats.money(totalCents + caps))}</span>`,
    hidden: html`${boxesShown(model)}${all.map(({ key }) => html`<input type="hidden" name="c${key}" value="1" />`)}`,
  };
}

/** What was said to the contingencies of an approved line, and what became of them. */
export function answeredContingencies(model: OwnerModel, line: OwnerLine): Html[] {
  const at = model.approval.document.lines.indexOf(line);
  return placesOf(model, line, at).flatMap((place) => {
    const told = happened(model, place);
    if (told !== null) return [told];
    const state = contingencyState(offeredContingency(place.facts));
    if (recordedAnswer(model, line) !== 'approved' || state === 'proposed') return [];
    const cap = model.formats.money(place.facts.capCents);
    return [html`<p><b>${place.shown.what}.</b> ${state === 'agreed' ? WORDS.goAhead(cap) : WORDS.ask}</p>`];
  });
}

/** Of what was agreed to in advance on this page and has not happened. */
export function stillAtMost(model: OwnerModel): Html | false {
  const open = openContingencies(model).filter(({ facts }) => facts.answer?.agreed === true);
  const caps = open.reduce((sum, { facts }) => sum + facts.capCents, 0);
  return caps > 0 && html`<span class="small">${WORDS.stillAtMost(model.formats.money(caps))}</span>`;
}
