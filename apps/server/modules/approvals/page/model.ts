import type { Answer } from '#libs/approval';
import type { RangeResponse } from '../../estimates/index.js';
import { textOf } from '../data/approval.mapping.js';
import type { Approval } from '../queries/approval.query.js';
import type { FoundLink } from '../queries/link.query.js';
import { formatsFor, type Formats } from './formats.js';
import type { Sender } from './frame.js';

/** What the pages are made of: an approval, its link, and how this shop writes amounts and times. */
export interface OwnerModel {
  readonly approval: Approval;
  readonly link: FoundLink;
  readonly token: string;
  readonly formats: Formats;
  readonly sender: Sender;
  /** Of all lines that can be done at once. */
  readonly range: RangeResponse;
}

export type OwnerLine = Approval['document']['lines'][number];

export function ownerModel(
  approval: Approval,
  range: RangeResponse,
  link: FoundLink,
  token: string,
): OwnerModel {
  const { about } = approval.document;
  return {
    approval,
    link,
    token,
    formats: formatsFor(textOf(about, 'currency'), textOf(about, 'timeZone')),
    sender: { name: link.shopName, phone: link.shopPhone },
    range,
  };
}

export const isBegun = ({ approval }: OwnerModel, line: OwnerLine): boolean =>
  approval.offer.begun.has(line.id);

export function recordedAnswer({ approval }: OwnerModel, line: OwnerLine): Answer | undefined {
  return approval.offer.standing.get(line.id)?.answer;
}

/** Lines by their place on the page; the place is what the form's fields are called after. */
export function openLines(model: OwnerModel): { readonly line: OwnerLine; readonly at: number }[] {
  return model.approval.document.lines
    .map((line, at) => ({ line, at }))
    .filter(({ line }) => !isBegun(model, line));
}

export function everythingDecided(model: OwnerModel): boolean {
  return model.approval.document.lines.every((line) => recordedAnswer(model, line) !== undefined);
}
