import type { FieldFault } from '#libs/kernel';
import type { LineRequest } from '../../api/estimate-types.js';
import { type ItemDraft, type LineDraft, draftOf } from './line-draft.js';
import { FigureReader } from './read-figures.js';

/** What is sent, and what in it could not be read; nothing is sent while something could not. */
export interface LineBody {
  readonly body: LineRequest;
  readonly faults: readonly FieldFault[];
}

const orNull = (text: string): string | null => (text.trim() === '' ? null : text.trim());

/** The parts of a line that differ from what it was; a new line is sent whole. */
export function lineBody(draft: LineDraft, before: LineDraft | null): LineBody {
  const reader = new FigureReader();
  const parts: readonly (readonly [readonly (keyof LineDraft)[], () => Readonly<Record<string, unknown>>])[] =
    [
      [['title'], () => (draft.title.trim() === '' ? {} : { title: draft.title.trim() })],
      [['explanation'], () => ({ explanation: orNull(draft.explanation) })],
      [['consequence'], () => ({ consequence: orNull(draft.consequence) })],
      [['stake'], () => ({ stake: draft.stake === '' ? null : draft.stake })],
      [['findingIds'], () => ({ findingIds: draft.findingIds })],
      [['requires'], () => ({ requires: draft.requires })],
      [
        ['operations'],
        () => ({
          operations: draft.operations.map(({ operationId, positions }) => ({ operationId, positions })),
        }),
      ],
      [['hours', 'hoursSource'], () => hoursBody(draft, reader)],
      [['items'], () => ({ items: draft.items.map((item, at) => itemBody(item, at, reader)) })],
      [['noCharge'], () => ({ noCharge: draft.noCharge === '' ? null : draft.noCharge })],
      [['labourOff', 'itemsOff', 'offReason'], () => discountBody(draft, reader)],
    ];
  const empty = before ?? draftOf(null);
  const changed = parts.filter(([keys]) => keys.some((key) => differs(draft[key], empty[key])));
  // In order, so that the faults come in the order of the form.
  const body = Object.assign({}, ...changed.map(([, make]) => make())) as LineRequest;
  return { body, faults: reader.faults };
}

const differs = (a: unknown, b: unknown): boolean => JSON.stringify(a) !== JSON.stringify(b);

function hoursBody(
  { hours, hoursSource }: LineDraft,
  reader: FigureReader,
): Readonly<Record<string, unknown>> {
  if (hours.trim() === '') return { enteredHundredths: null, enteredSource: null };
  return {
    enteredHundredths: reader.hundredths('/enteredHundredths', hours, 'the hours'),
    enteredSource: orNull(hoursSource),
  };
}

function discountBody(draft: LineDraft, reader: FigureReader): Readonly<Record<string, unknown>> {
  const labourPpm = reader.ppm('/discount/labourPpm', draft.labourOff);
  const itemsPpm = reader.ppm('/discount/itemsPpm', draft.itemsOff);
  if (labourPpm === null && itemsPpm === null) return { discount: null };
  return {
    discount: {
      ...(labourPpm === null ? {} : { labourPpm }),
      ...(itemsPpm === null ? {} : { itemsPpm }),
      reason: draft.offReason.trim(),
    },
  };
}

function itemBody(item: ItemDraft, at: number, reader: FigureReader): Readonly<Record<string, unknown>> {
  const pointer = `/items/${at}`;
  const amount = reader.hundredths(`${pointer}/amount`, item.amount, 'the amount');
  return {
    kind: item.kind,
    name: item.name.trim(),
    partNumber: orNull(item.partNumber),
    ...(item.kind === 'part' ? { condition: item.condition, source: item.source } : {}),
    quantityHundredths: reader.hundredths(`${pointer}/quantityHundredths`, item.quantity, 'how many'),
    ...priceOf(item, amount, reader.ppm(`${pointer}/marginPpm`, item.margin)),
    ...(item.core.trim() === ''
      ? {}
      : { coreCents: reader.hundredths(`${pointer}/coreCents`, item.core, 'the deposit') }),
    expectedAt: item.expectedAt,
  };
}

function priceOf(
  item: ItemDraft,
  amount: number,
  marginPpm: number | null,
): Readonly<Record<string, unknown>> {
  switch (item.rule) {
    case 'entered':
      return {
        unitPriceCents: amount,
        ...(item.costCents === null ? {} : { unitCostCents: item.costCents }),
      };
    case 'list':
      return { priceRule: 'list', listCents: amount };
    case 'margin':
      return { priceRule: 'margin', unitCostCents: amount, ...(marginPpm === null ? {} : { marginPpm }) };
    case 'matrix':
    case 'sublet-markup':
      return { priceRule: item.rule, unitCostCents: amount };
  }
}
