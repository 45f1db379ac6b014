import type { Answer } from '#libs/approval';
import type { ChoicePrice, Figures } from '#libs/estimate';
import { savedCents } from '../../estimates/index.js';
import {
  CONTINGENCY_RULES,
  hasContingencies,
  reviewedContingencies,
  type Ticked,
} from './contingency-part.js';
import { framed, type Page } from './frame.js';
import { html, Html } from './html.js';
import { figuresRow } from './line-ticket.js';
import { verdictMark } from './marks.js';
import { openLines, recordedAnswer, type OwnerLine, type OwnerModel } from './model.js';
import { WORDS } from './words.js';

export interface ReviewState {
  readonly status?: number;
  readonly alert?: string;
  /** By place; what is not in it keeps what is recorded. */
  readonly answers: ReadonlyMap<number, Answer>;
  readonly days: ReadonlyMap<number, string | null>;
  readonly name: string;
  readonly ticked?: Ticked;
  /** Of the choice that these answers come to. */
  readonly price: ChoicePrice;
}

interface Answered {
  readonly line: OwnerLine;
  readonly at: number;
  readonly answer: Answer | undefined;
}

function answered(model: OwnerModel, answers: ReadonlyMap<number, Answer>): Answered[] {
  return openLines(model).map(({ line, at }) => ({
    line,
    at,
    answer: answers.get(at) ?? recordedAnswer(model, line),
  }));
}

function yesTicket(model: OwnerModel, { line }: Answered, figures: Figures | undefined): Html {
  const { formats } = model;
  return html`<section class="ticket">
    <div class="body">
      <div class="head">
        <h3>${line.title}</h3>
        <b>${figures && formats.money(figures.totalCents)}</b>
      </div>
      ${figures && figuresRow(figures, formats)}
    </div>
  </section>`;
}

function restTicket(model: OwnerModel, state: ReviewState, { line, at, answer }: Answered): Html {
  const recorded = model.approval.offer.standing.get(line.id)?.lookAgainOn;
  const day = state.days.has(at) ? state.days.get(at) : recorded;
  return html`<section class="ticket">
    <div class="body">
      <h3>${line.title}</h3>
      ${
        line.verdict === 'Unsafe' &&
        html`${verdictMark(line.verdict)}
          <p><b>${line.mayDrive}</b> ${WORDS.unsafe}</p>`
      }${answer === 'deferred' && html`<label class="name small">${WORDS.remind}<input type="date" name="d${at}" value="${day ?? ''}" /></label>`}
    </div>
  </section>`;
}

function group(heading: string, tickets: readonly Html[], note?: string): Html | false {
  return (
    tickets.length > 0 &&
    html`<h2 class="group">${heading}</h2>
      ${tickets}${note !== undefined && html`<p class="small">${note}</p>`}`
  );
}

/** The sum, part by part, as it will be agreed to. */
export function sums(model: OwnerModel, price: ChoicePrice): Html {
  const { formats } = model;
  const { totals } = price;
  const row = (name: string, amount: number): Html =>
    html`<dt>${name}</dt>
      <dd>${formats.money(amount)}</dd>`;
  const taxes = totals.taxes.filter(({ cents }) => cents !== 0);
  const saved = savedCents(price);
  return html`<dl class="sum">
      ${row(WORDS.parts, totals.partsCents + totals.coreCents)}${row(WORDS.labour, totals.labourCents)}${totals.suppliesCents !== 0 && row(WORDS.supplies, totals.suppliesCents)}${taxes.map(({ name, cents }) => row(name, cents))}
    </dl>
    ${saved > 0 && html`<p class="small">${WORDS.saved(formats.money(saved))}</p>`}`;
}

/** The second look: every answer with its exact figures, before anything counts. */
export function reviewPage(model: OwnerModel, state: ReviewState): Page {
  const { approval, formats, link } = model;
  const { price } = state;
  const lines = answered(model, state.answers);
  const by = (answer: Answer | undefined): Answered[] => lines.filter((one) => one.answer === answer);
  const figures = new Map(price.lines.flatMap((line) => (line.chosen ? [[line.id, line] as const] : [])));
  const unrepaired = lines.filter(
    ({ line, answer }) => line.verdict === 'Unsafe' && answer !== 'approved' && answer !== undefined,
  );
  const hidden = [...state.answers].map(
    ([at, answer]) => html`<input type="hidden" name="a${at}" value="${answer}" />`,
  );
  const maybe = reviewedContingencies(model, state.answers, state.ticked, price.totals.totalCents);
  const rest = (some: readonly Answered[]): Html[] => some.map((one) => restTicket(model, state, one));
  return framed({
    ...(state.status === undefined ? {} : { status: state.status }),
    sender: model.sender,
    title: WORDS.title(link.shopName),
    ...(hasContingencies(model) ? { rules: CONTINGENCY_RULES } : {}),
    main: html`<h1>${WORDS.review}</h1>
      ${state.alert !== undefined && html`<p class="alert" role="alert">${state.alert}</p>`}
      <form method="post" action="/o/${model.token}">
        ${group(
          WORDS.yes,
          by('approved').map((one) => yesTicket(model, one, figures.get(one.line.id))),
        )}${maybe.part}${sums(model, price)}
        <div class="total">
          <span>${WORDS.total}</span><b>${formats.money(price.totals.totalCents)}</b>${maybe.atMost}
        </div>
        ${group(WORDS.later, rest(by('deferred')))}${group(WORDS.no, rest(by('declined')))}${group(
          WORDS.unanswered,
          by(undefined).map(({ line }) => html`<p>${line.title}</p>`),
          WORDS.unansweredNote,
        )}${
          unrepaired.length > 0 &&
          html`<div class="alert">
            <h2>${WORDS.unsafeHeading}</h2>
            ${unrepaired.map(({ line }) => html`<p>${WORDS.drive(line.title, line.mayDrive ?? '')}</p>`)}
          </div>`
        }
        <p>${WORDS.promise}</p>
        <label class="name"
          >${WORDS.name}<input
            type="text"
            name="name"
            value="${state.name}"
            autocomplete="name"
            required
            minlength="2"
            maxlength="120"
        /></label>
        <p class="small">${WORDS.consent}</p>
        ${hidden}${maybe.hidden}<input type="hidden" name="sha" value="${approval.shownSha256}" /><input
          type="hidden"
          name="total"
          value="${price.totals.totalCents}"
        /><button name="step" value="send">${WORDS.send}</button
        ><button class="second" name="step" value="change" formnovalidate>${WORDS.change}</button>
      </form>
      <p class="small">${WORDS.law}</p>`,
  });
}
