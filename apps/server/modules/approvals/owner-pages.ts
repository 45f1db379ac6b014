import { Injectable } from '@nestjs/common';
import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { chosenAfter, notTogether, type Answer, type GivenAnswer } from '#libs/approval';
import type { Tx } from '../../platform/database/tx.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { PhotoStore, sendPhoto } from '../../platform/files/index.js';
import { ProblemError } from '../../platform/http/problem-error.js';
import { openPhoto } from '../inspections/index.js';
import type { LinkRequest } from './approval-links.js';
import { relatedLine } from './data/related-line.js';
import { OwnerDoor, type OwnerVisit } from './owner-door.js';
import { OwnerSpending } from './owner-spending.js';
import { answersPage } from './page/answers-page.js';
import { choicePage } from './page/choice-page.js';
import { closedPage } from './page/closed-page.js';
import { givenContingencies, openContingencies } from './page/contingency-part.js';
import { CONTINGENCY_WORDS } from './page/contingency-words.js';
import { readForm, type SentForm } from './page/form.js';
import type { Page } from './page/frame.js';
import { everythingDecided, openLines, ownerModel, type OwnerModel } from './page/model.js';
import { reviewPage } from './page/review-page.js';
import { answersOf, takenSet } from './page/spend.js';
import { WORDING, WORDS } from './page/words.js';
import { approvalRange } from './queries/approval-range.query.js';
import { approvalOf, approvedOf, type Approval } from './queries/approval.query.js';
import { decideByLink, noteOpened } from './use-cases/decide-by-link.js';

/** What was wrong with a sending that was refused, in the owner's words. */
const ALERTS: Readonly<Record<string, string>> = {
  'shown-has-changed': WORDS.changed,
  'work-already-begun': WORDS.workBegun,
  'contingency-triggered': CONTINGENCY_WORDS.already,
  'repair-order-closed': WORDS.closedStay,
};

/** The answers of the form by line; places on which work has begun meanwhile are left out. */
function givenAnswers(model: OwnerModel, form: SentForm): GivenAnswer[] {
  return openLines(model).flatMap(({ line, at }) => {
    const answer = form.answers.get(at);
    if (answer === undefined) return [];
    const day = answer === 'deferred' ? form.days.get(at) : undefined;
    return [{ lineId: line.id, answer, ...(day === undefined ? {} : { lookAgainOn: day }) }];
  });
}

/** What of these answers cannot be done as it is, in the owner's words. */
function clashIn(
  { approval: { offer, document } }: OwnerModel,
  answers: readonly GivenAnswer[],
): string | null {
  const { standing, begun } = offer;
  const chosen = chosenAfter({ answers, standing, begun });
  const pairs = notTogether({ lines: document.lines.map(relatedLine), chosen, begun });
  if (pairs.length === 0) return null;
  return pairs
    .map(({ kind, title, other }) => (kind === 'requires' ? WORDS.withoutOther : WORDS.notBoth)(title, other))
    .join(' ');
}

/** The approval priced for what the form's answers come to, with what was decided before. */
async function approvalFor(
  tx: Tx,
  revisionId: string,
  answers: ReadonlyMap<number, Answer>,
): Promise<Result<Approval>> {
  return approvalOf(tx, revisionId, (offer) => {
    const given = offer.lines.flatMap(({ id }, at) => {
      const answer = answers.get(at);
      return answer === undefined ? [] : [{ lineId: id, answer }];
    });
    if (given.length === 0) return approvedOf(offer);
    return chosenAfter({ answers: given, standing: offer.standing, begun: offer.begun });
  });
}

/** The owner's pages: choose, look again, send, read. Every answer is a whole page; there is no script. */
@Injectable()
export class OwnerPages {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly door: OwnerDoor,
    private readonly photos: PhotoStore,
    private readonly spending: OwnerSpending,
  ) {}

  /** What a GET shows. It changes nothing, however often and by whomever it is fetched. */
  async show(from: LinkRequest): Promise<Page> {
    return this.visit(from, async (visit) => {
      const model = await this.model(visit, from.token, new Map());
      const query = from.request.query as Readonly<Record<string, unknown>>;
      const wantsChange = 'change' in query || 'spend' in query;
      const open = openLines(model).length + openContingencies(model).length;
      const mayChange = model.approval.isOpen && open > 0;
      if (!mayChange || (everythingDecided(model) && !wantsChange)) return answersPage(model, false);
      return this.choose(model, query);
    });
  }

  /** What a POST of the form leads to. */
  async submit(from: LinkRequest): Promise<Page> {
    return this.visit(from, async (visit) => {
      await this.uow.run({ ...visit.ctx, idempotency: undefined }, (tx) => noteOpened(tx, visit.link.id));
      const before = await this.model(visit, from.token, new Map());
      if (!before.approval.isOpen) return answersPage(before, false, WORDS.closedStay);
      const form = readForm(from.request.body, before.approval.document.lines.length);
      const model = await this.model(visit, from.token, form.answers);
      if (form.step === 'change') return choicePage(model, { answers: form.answers, ticked: form.ticked });
      const extra = givenContingencies(model, form.answers, form.ticked);
      const given = givenAnswers(model, form);
      const { answers, ticked } = form;
      if (given.length + extra.length === 0)
        return choicePage(model, { status: 422, alert: WORDS.nothingChosen });
      const clash = clashIn(model, given);
      if (clash !== null) return choicePage(model, { status: 422, alert: clash, answers, ticked });
      if (form.step === 'review') return this.review(model, form);
      if (form.name.length < 2) return this.review(model, form, 422, WORDS.nameMissing);
      if (form.dayIsWrong) return this.review(model, form, 422, WORDS.dayWrong);
      return this.send(visit, from.token, model, form);
    });
  }

  /** A photo of a line that this link shows; any other is not there. */
  async photo(from: LinkRequest, photoId: string, size: 'full' | 'small'): Promise<void> {
    const visit = await this.door.enter(from.token, from.request, from.reply);
    if (!visit.ok) throw new ProblemError(visit.fault);
    const { ctx, link } = visit.value;
    const photo = await this.uow.read(ctx, async (tx) => {
      const approval = await approvalOf(tx, link.revisionId);
      if (!approval.ok) return approval;
      const { document, offer } = approval.value;
      const proofs = offer.contingencies.map(({ trigger }) => trigger?.photoId);
      const shown = proofs.includes(photoId) || document.lines.some(({ photos }) => photos.includes(photoId));
      return shown ? openPhoto(tx, photoId) : fail('not-found', 'There is no such photo on this page.');
    });
    await sendPhoto(this.photos, photo, size, from.request, from.reply);
  }

  private async visit(from: LinkRequest, page: (visit: OwnerVisit) => Promise<Page>): Promise<Page> {
    const visit = await this.door.enter(from.token, from.request, from.reply);
    return visit.ok ? page(visit.value) : closedPage(visit.fault);
  }

  private async model(
    visit: OwnerVisit,
    token: string,
    answers: ReadonlyMap<number, Answer>,
  ): Promise<OwnerModel> {
    const { approval, range } = await this.uow.read(visit.ctx, async (tx) => {
      const approved = await approvalFor(tx, visit.link.revisionId, answers);
      if (!approved.ok) return approved;
      const drawn = await approvalRange(tx, approved.value);
      return drawn.ok ? ok({ approval: approved.value, range: drawn.value }) : drawn;
    });
    return ownerModel(approval, range, visit.link, token);
  }

  /** The page to choose on, with what a sum can do; a set that was taken fills in the answers and records nothing. */
  private async choose(model: OwnerModel, query: Readonly<Record<string, unknown>>): Promise<Page> {
    const spend = await this.spending.spendOf(model, query);
    const taken = spend === null ? undefined : takenSet(spend);
    const isWrong = spend !== null && spend.typed !== null && spend.budgetCents === null;
    return choicePage(model, {
      spend,
      ...(isWrong ? { status: 422 } : {}),
      ...(taken === undefined ? {} : { answers: answersOf(model, taken) }),
    });
  }

  private review(model: OwnerModel, form: SentForm, status = 200, alert?: string): Page {
    const { answers, days, name, ticked } = form;
    return reviewPage(model, {
      status,
      answers,
      days,
      name,
      ticked,
      price: model.approval.price,
      ...(alert ? { alert } : {}),
    });
  }

  private async send(visit: OwnerVisit, token: string, model: OwnerModel, form: SentForm): Promise<Page> {
    const given = {
      answers: givenAnswers(model, form),
      contingencies: givenContingencies(model, form.answers, form.ticked),
      shownSha256: form.shownSha256,
      expectedTotalCents: form.expectedTotalCents,
      decidedBy: form.name,
    };
    try {
      await this.uow.run({ ...visit.ctx, idempotency: undefined }, (tx) =>
        decideByLink(tx, visit.link, given, WORDING),
      );
    } catch (error) {
      if (!(error instanceof ProblemError)) throw error;
      return this.refused(visit, token, form, error.fault);
    }
    return answersPage(await this.model(visit, token, new Map()), true);
  }

  /** A refusal is shown where the owner can act on it, with the figures of now. */
  private async refused(visit: OwnerVisit, token: string, form: SentForm, fault: Fault): Promise<Page> {
    if (fault.code === 'link-expired' || fault.code === 'link-revoked') return closedPage(fault);
    const alert = ALERTS[fault.code] ?? WORDS.busy;
    const model = await this.model(visit, token, form.answers);
    if (fault.code === 'shown-has-changed') return this.review(model, form, 409, alert);
    return choicePage(model, { status: 409, alert, answers: form.answers, ticked: form.ticked });
  }
}
