import type { Answer } from '#libs/approval';
import { chargedCents } from '../../estimates/index.js';
import {
  answeredContingencies,
  CONTINGENCY_RULES,
  hasContingencies,
  openContingencies,
  stillAtMost,
} from './contingency-part.js';
import { framed, type Page } from './frame.js';
import { html, type Html } from './html.js';
import { isBegun, openLines, type OwnerLine, type OwnerModel } from './model.js';
import { verdictMark } from './marks.js';
import { WORDS } from './words.js';

function answerTicket(model: OwnerModel, line: OwnerLine): Html {
  const { formats, approval } = model;
  const decision = approval.offer.standing.get(line.id);
  const word = decision === undefined ? WORDS.open : WORDS[decision.answer];
  const isYes = decision?.answer === 'approved';
  const warns = line.verdict === 'Unsafe' && !isYes;
  const day = decision?.lookAgainOn ?? null;
  return html`<section class="ticket">
    <div class="body">
      <div class="head">
        <h2>${line.title}</h2>
        <b>${isYes ? formats.money(decision.shownTotalCents) : word}</b>
      </div>
      ${isYes && html`<p><b>${word}</b>. ${WORDS.parts} ${formats.money(decision.shownPartsCents)}, ${WORDS.labour.toLowerCase()} ${formats.money(decision.shownLabourCents)} (${WORDS.hours(formats.hours(decision.shownHundredths))}), ${WORDS.rest.toLowerCase()} ${formats.money(decision.shownSuppliesCents + decision.shownTaxCents)}.</p>`}${
        warns &&
        html`${verdictMark('Unsafe')}
          <p><b>${line.mayDrive}</b> ${WORDS.unsafe}</p>`
      }${answeredContingencies(model, line)}${day !== null && html`<p>${WORDS.lookAgain(formats.day(day))}</p>`}${isBegun(model, line) && html`<p>${WORDS.begun}</p>`}
    </div>
  </section>`;
}

/** What was answered and agreed to; after sending, and whenever the page is opened again. Also the owner's copy. */
export function answersPage(model: OwnerModel, justSent: boolean, alert?: string): Page {
  const { approval, formats, link } = model;
  const standing = [...approval.offer.standing.values()];
  const latest = standing.reduce<(typeof standing)[number] | undefined>(
    (last, one) => (last === undefined || one.response.decidedAt >= last.response.decidedAt ? one : last),
    undefined,
  );
  const charged: number = chargedCents(approval.offer.contingencies);
  const agreed = standing
    .filter(({ answer }) => answer === ('approved' satisfies Answer))
    .reduce<number>((sum, { shownTotalCents }) => sum + shownTotalCents, charged);
  const mayChange = approval.isOpen && (openLines(model).length > 0 || openContingencies(model).length > 0);
  return framed({
    sender: model.sender,
    title: WORDS.title(link.shopName),
    ...(hasContingencies(model) ? { rules: CONTINGENCY_RULES } : {}),
    main: html`<h1>${justSent ? WORDS.done : WORDS.answers}</h1>
      ${alert !== undefined && html`<p class="alert" role="alert">${alert}</p>`}
      ${latest && html`<p>${WORDS.doneLead(latest.response.decidedBy, formats.moment(latest.response.decidedAt))}</p>`}${approval.document.lines.map((line) => answerTicket(model, line))}
      <div class="total">
        <span>${WORDS.agreed}</span><b>${formats.money(agreed)}</b>${stillAtMost(model)}
      </div>
      <p>${WORDS.promise}</p>
      ${mayChange && html`<p class="links"><a href="/o/${model.token}?change">${WORDS.changeLink}</a></p>`}
      <p class="small">${WORDS.keep} ${WORDS.hold(formats.moment(link.expiresAt))}</p>
      <p class="mark">
        ${WORDS.reference(Number(approval.document.about['repairOrderNumber']), approval.offer.number)}.
        ${WORDS.mark(approval.shownSha256)}
      </p>`,
  });
}
