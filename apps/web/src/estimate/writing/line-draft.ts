import type { Item, Line } from '../../api/estimate-types.js';

export type PriceRule = NonNullable<Item['priceRule']>;

/** A line as it is being written: amounts and hours are still what was typed. */
export interface LineDraft {
  readonly title: string;
  readonly explanation: string;
  readonly consequence: string;
  readonly stake: NonNullable<Line['stake']> | '';
  readonly findingIds: readonly string[];
  readonly operations: readonly OperationDraft[];
  readonly hours: string;
  readonly hoursSource: string;
  readonly items: readonly ItemDraft[];
  readonly requires: readonly string[];
  readonly noCharge: NonNullable<Line['noCharge']> | '';
  readonly labourOff: string;
  readonly itemsOff: string;
  readonly offReason: string;
}

export interface OperationDraft {
  readonly operationId: string;
  readonly name: string;
  readonly positions: readonly string[];
}

export interface ItemDraft {
  readonly key: number;
  readonly kind: Item['kind'];
  readonly name: string;
  readonly partNumber: string;
  readonly condition: NonNullable<Item['condition']>;
  readonly source: NonNullable<Item['source']>;
  readonly quantity: string;
  readonly rule: PriceRule;
  /** The price, the list price or the cost, as the rule wants it. */
  readonly amount: string;
  readonly margin: string;
  readonly core: string;
  /** When the part is expected, carried along untouched. */
  readonly expectedAt: string | null;
  /** What the shop pays, of an item whose price was entered; carried along untouched. */
  readonly costCents: number | null;
}

let keys = 0;

export function newItem(): ItemDraft {
  keys += 1;
  return {
    key: keys,
    kind: 'part',
    name: '',
    partNumber: '',
    condition: 'new',
    source: 'supplier',
    quantity: '1',
    rule: 'entered',
    amount: '',
    margin: '',
    core: '',
    expectedAt: null,
    costCents: null,
  };
}

const plain = (cents: number): string => (cents % 100 === 0 ? String(cents / 100) : (cents / 100).toFixed(2));
const percent = (ppm: number | null | undefined): string => (ppm ? String(ppm / 10_000) : '');

function itemDraft(item: Item): ItemDraft {
  const rule = item.priceRule ?? 'entered';
  const amounts: Readonly<Record<PriceRule, number | null | undefined>> = {
    entered: item.unitPriceCents,
    list: item.listCents,
    matrix: item.unitCostCents,
    margin: item.unitCostCents,
    'sublet-markup': item.unitCostCents,
  };
  return {
    ...newItem(),
    kind: item.kind,
    name: item.name,
    partNumber: item.partNumber ?? '',
    condition: item.condition ?? 'new',
    source: item.source ?? 'supplier',
    quantity: plain(item.quantityHundredths),
    rule,
    amount: plain(amounts[rule] ?? item.unitPriceCents),
    margin: percent(item.marginPpm),
    core: item.coreCents > 0 ? plain(item.coreCents) : '',
    expectedAt: item.expectedAt,
    costCents: item.unitCostCents,
  };
}

export function draftOf(line: Line | null): LineDraft {
  return {
    title: line?.title ?? '',
    explanation: line?.explanation ?? '',
    consequence: line?.consequence ?? '',
    stake: line?.stake ?? '',
    findingIds: line?.findings.map(({ findingId }) => findingId) ?? [],
    operations:
      line?.operations.map(({ operationId, name, positions }) => ({ operationId, name, positions })) ?? [],
    hours: line?.enteredHundredths == null ? '' : String(line.enteredHundredths / 100),
    hoursSource: line?.enteredSource ?? '',
    items: line?.items.map(itemDraft) ?? [],
    requires: line?.requires ?? [],
    noCharge: line?.noCharge ?? '',
    labourOff: percent(line?.discount?.labourPpm),
    itemsOff: percent(line?.discount?.itemsPpm),
    offReason: line?.discount?.reason ?? '',
  };
}
