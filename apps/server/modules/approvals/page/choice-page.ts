import { ANSWERS, type Answer } from '#libs/approval';
import type { LinePrice } from '#libs/estimate';
import { textOf } from '../data/approval.mapping.js';
import {
  boxesShown,
  CONTINGENCY_RULES,
  contingencyChoices,
  hasContingencies,
  type Ticked,
} from './contingency-part.js';
import { discountPart, orderDiscountPart } from './discount-part.js';
import { framed, type Page } from './frame.js';
import { html, Html } from './html.js';
import { figuresRow, findingPart, itemsPart } from './line-ticket.js';
import { isBegun, openLines, recordedAnswer, type OwnerLine, type OwnerModel } from './model.js';
import { RANGE_RULES, rangePart } from './range-part.js';
import { relationPart } from './relation-part.js';
import { runningTotal } from './running-total.js';
import { takenSet, type Spend } from './spend.js';
import { SPEND_RULES, spendPart, takenNote } from './spend-part.js';
import { WORDS } from './words.js';

export interface ChoiceState {
  readonly status?: number;
  /** A sentence on top: what was wrong with what was sent. */
  readonly alert?: string;
  /** Answers given on the way here, by place; they win over what is recorded. */
  readonly answers?: ReadonlyMap<number, Answer>;
  /** What can be done for a sum; absent where there is nothing to choose between. */
  readonly spend?: Spend | null;
  /** What was agreed to in advance on the way here. */
  readonly ticked?: Ticked;
}

function pick(line: OwnerLine, at: number, current: Answer | undefined): Html {
  const one = (answer: Answer): Html =>
    html`<label
      ><input
        type="radio"
        name="a${at}"
        value="${answer}"
        ${answer === 'approved' && new Html(` id="y${at}"`)}${answer === current && new Html(' checked')}
      />${WORDS[answer]}</label
    >`;
  const inOrder = [...ANSWERS].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b));
  return html`<fieldset class="pick">
    <legend>${WORDS.legend(line.title)}</legend>
    <div>${inOrder.map(one)}</div>
  </fieldset>`;
}

const ORDER: readonly Answer[] = ['approved', 'deferred', 'declined'];

function ticket(
  model: OwnerModel,
  line: OwnerLine,
  at: number,
  current: Answer | undefined,
  ticked: Ticked,
): Html {
  const { formats, approval, token } = model;
  const price: LinePrice | undefined = approval.whole.lines.find(({ id }) => id === line.id);
  const alone = price?.alone ?? line.alone;
  const together = price?.chosen === true ? price.totalCents : alone.totalCents;
  return html`<section class="ticket">
    <div class="body">
      <div class="head">
        <h2>${line.title}</h2>
        <b>${formats.money(alone.totalCents)}</b>
      </div>
      ${findingPart(line, token)}${figuresRow(alone, formats)}${itemsPart(line, formats)}${discountPart(line, formats, approval.document)}${relationPart(line, approval.document)}${together !== alone.totalCents && html`<p>${WORDS.alone} <b>${formats.money(alone.totalCents)}</b>. ${WORDS.together} <b>${formats.money(together)}</b>.</p>`}
    </div>
    ${pick(line, at, current)}${contingencyChoices(model, line, at, ticked)}
  </section>`;
}

function begunTicket(model: OwnerModel, line: OwnerLine, at: number, ticked: Ticked): Html {
  const agreed = model.approval.offer.standing.get(line.id)?.shownTotalCents ?? 0;
  return html`<section class="ticket">
    <div class="body">
      <div class="head">
        <h2>${line.title}</h2>
        <b>${model.formats.money(agreed)}</b>
      </div>
      <p>${WORDS.begun}</p>
    </div>
    ${contingencyChoices(model, line, at, ticked)}
  </section>`;
}

/** The sum of what is chosen, kept by style rules alone where they can be exact. */
function liveTotal(model: OwnerModel): { readonly part: Html; readonly rules: string } {
  const { offer } = model.approval;
  const places = openLines(model);
  const live = runningTotal({
    lines: places.map(({ line }) => line),
    given: offer.given,
    policy: offer.policy,
    orderDiscount: offer.orderDiscount,
    packages: offer.packages,
  });
  if (live === null) return { part: html`<p class="small">${WORDS.noRunning}</p>`, rules: '' };
  const { before, point, after } = model.formats.moneyParts;
  const content = `${quoted(before)} counter(maj) ${quoted(point)} counter(min,decimal-leading-zero) ${quoted(after)}`;
  // The rules count open lines; the fields are called after the place among all lines.
  const rules = live.rules.replace(/#y(\d+):/g, (_, index: string) => `#y${places[Number(index)]?.at ?? 0}:`);
  return {
    part: html`<div class="total live"><span>${WORDS.running}</span><output></output></div>`,
    rules: `${rules}.live{${live.total}}.live output::after{content:${content}}`,
  };
}

/** A text inside a style rule: every character as its code point, so that none can end the text. */
const quoted = (text: string): string =>
  `"${[...text].map((character) => `\\${(character.codePointAt(0) ?? 0).toString(16)} `).join('')}"`;

function lead({ approval, formats }: OwnerModel): Html {
  const { about } = approval.document;
  const plate = textOf(about, 'plate') || textOf(about, 'vinEnd');
  const odometer = `${formats.whole(Number(about['odometer']))} ${textOf(about, 'odometerUnit')}`;
  return html`<p>
      <strong>${WORDS.car(textOf(about, 'vehicle'), plate === '' ? null : plate, odometer)}</strong
      ><br /><span class="small"
        >${WORDS.reference(Number(about['repairOrderNumber']), approval.offer.number)}</span
      >
    </p>
    <p>
      ${WORDS.lead(textOf(about, 'sentBy'), formats.moment(textOf(about, 'sentAt')))} ${WORDS.how}
      <strong>${WORDS.promise}</strong>
    </p>
    ${orderDiscountPart(approval.document, formats)}`;
}

/** The page an owner opens: every line with its reasons and figures, and an answer to choose. Nothing is chosen for them. */
export function choicePage(model: OwnerModel, state: ChoiceState = {}): Page {
  const { approval, formats, link } = model;
  const open = openLines(model);
  const unanswered = open.filter(({ line }) => recordedAnswer(model, line) === undefined).length;
  const live = liveTotal(model);
  const tickets = approval.document.lines.map((line, at) =>
    isBegun(model, line)
      ? begunTicket(model, line, at, state.ticked)
      : ticket(model, line, at, state.answers?.get(at) ?? recordedAnswer(model, line), state.ticked),
  );
  const shares =
    approval.whole.totals.totalCents < approval.whole.lines.reduce((sum, l) => sum + l.aloneTotalCents, 0);
  return framed({
    ...(state.status === undefined ? {} : { status: state.status }),
    sender: model.sender,
    title: WORDS.title(link.shopName),
    rules:
      live.rules +
      RANGE_RULES +
      (hasContingencies(model) ? CONTINGENCY_RULES : '') +
      (state.spend ? SPEND_RULES : ''),
    main: html`<h1>${unanswered === 0 ? WORDS.headingChange : WORDS.heading(unanswered)}</h1>
      ${state.alert !== undefined && html`<p class="alert" role="alert">${state.alert}</p>`}${lead(model)}${shares && html`<p>${WORDS.shared}</p>`}${rangePart(model)}${state.spend && spendPart(model, state.spend)}
      <form method="post" action="/o/${model.token}" id="answers">
        ${state.spend && takenSet(state.spend) && takenNote(model, state.spend)}${boxesShown(model)}${tickets}${live.part}
        <p class="small">${WORDS.taxIn} ${WORDS.hold(formats.moment(link.expiresAt))}</p>
        <button name="step" value="review">${WORDS.look}</button>
        <p class="small">${WORDS.nothingCounts}</p>
      </form>
      <p class="small">${WORDS.law}</p>`,
  });
}
