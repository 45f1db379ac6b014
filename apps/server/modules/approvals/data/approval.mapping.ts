import { authorisedCents } from '#libs/approval';
import type { LinePrice } from '#libs/estimate';
import {
  AUTHORISATION_NOTICE,
  chargedCents,
  discountResponse,
  figuresResponse,
  orderDiscountResponse,
} from '../../estimates/index.js';
import type { ApprovalLinkResponse, ShownLineResponse } from '../dto/approval-link.response.js';
import type { Approval } from '../queries/approval.query.js';
import { shownContingencies } from './contingency.mapping.js';
import type { FoundLink } from '../queries/link.query.js';

function shownLine(
  line: Approval['document']['lines'][number],
  approval: Approval,
  token: string,
): ShownLineResponse {
  const { offer, whole } = approval;
  const price: LinePrice | undefined = whole.lines.find(({ id }) => id === line.id);
  return {
    lineId: line.id,
    title: line.title,
    verdict: line.verdict,
    mayDrive: line.mayDrive,
    why: line.why,
    consequence: line.consequence,
    measured: line.measured.map(({ reading, limit, source }) => ({ reading, limit, source })),
    operations: [...line.operations],
    items: line.items.map((item) => ({
      kind: item.kind,
      words: item.words,
      condition: item.condition,
      quantityHundredths: item.quantityHundredths,
      unitPriceCents: item.unitPriceCents,
      coreCents: item.coreCents ?? 0,
    })),
    noCharge: line.noCharge ?? null,
    discount: discountResponse(line.discount),
    contingencies: shownContingencies(line, approval, token),
    photos: line.photos.map((id) => ({ id, path: `/o/${token}/photos/${id}` })),
    alone: figuresResponse(price?.alone ?? line.alone),
    together: figuresResponse(price?.chosen ? price : line.together),
    workBegun: offer.begun.has(line.id),
    decision: offer.standing.get(line.id)?.response ?? null,
  };
}

/** A document keeps plain values under names of ours; a name that is missing is an empty text. */
export const textOf = (about: Approval['document']['about'], name: string): string =>
  String(about[name] ?? '');
const orNull = (text: string): string | null => (text === '' ? null : text);

export function approvalResponse(
  approval: Approval,
  link: FoundLink,
  token: string,
): Omit<ApprovalLinkResponse, 'range'> {
  const { document, offer, price } = approval;
  const { about } = document;
  return {
    shopName: link.shopName,
    shopPhone: link.shopPhone,
    repairOrderNumber: Number(about['repairOrderNumber']),
    revisionNumber: offer.number,
    vehicle: textOf(about, 'vehicle'),
    plate: orNull(textOf(about, 'plate')),
    currency: textOf(about, 'currency'),
    timeZone: textOf(about, 'timeZone'),
    sentAt: new Date(textOf(about, 'sentAt')).toISOString(),
    expiresAt: link.expiresAt.toISOString(),
    shownSha256: approval.shownSha256,
    lines: document.lines.map((line) => shownLine(line, approval, token)),
    orderDiscount: orderDiscountResponse(document.orderDiscount),
    chosen: figuresResponse(price.totals),
    approvedCents: authorisedCents([...offer.standing.values()]) + chargedCents(offer.contingencies),
    authorisedCents: offer.authorisedCents,
    contingentCents: offer.contingentCents,
    vehicleValueCents: document.vehicleValueCents ?? null,
    notice: AUTHORISATION_NOTICE,
  };
}
