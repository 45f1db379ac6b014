import type { WorkOrderFactsRow } from '../../work-orders/index.js';

/** A part that should have come is still expected for this long; then somebody has to ask for a new date. Common sense, no source. */
export const OVERDUE_MS = 24 * 3_600_000;

export const isShort = (item: WorkOrderFactsRow['items'][number]): boolean =>
  item.receivedHundredths < item.neededHundredths;

/** A part or sublet that is not all here, with the time at which it is or was expected. */
export interface ExpectedItem {
  readonly lineItemId: string;
  readonly kind: 'part' | 'sublet';
  readonly name: string;
  readonly at: Date;
}

export const expectedItems = ({ items }: WorkOrderFactsRow): ExpectedItem[] =>
  items
    .filter(isShort)
    .flatMap(({ id, kind, name, expectedAt }) =>
      expectedAt === null ? [] : [{ lineItemId: id, kind, name, at: new Date(expectedAt) }],
    );
