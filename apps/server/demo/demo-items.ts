import type { DemoItem } from './demo-stay.js';

/** A part at so many cents each: what the owner pays, then what the shop pays. */
export const part = (
  name: string,
  partNumber: string,
  count: number,
  unitPriceCents: number,
  unitCostCents: number,
  more: Partial<DemoItem> = {},
): DemoItem => ({
  kind: 'part',
  name,
  partNumber,
  quantityHundredths: count * 100,
  unitPriceCents,
  unitCostCents,
  condition: 'new',
  source: 'supplier',
  ...more,
});

export const BRAKE_FLUID: DemoItem = {
  kind: 'fluid',
  name: 'Brake fluid, litre',
  quantityHundredths: 100,
  unitPriceCents: 1890,
  unitCostCents: 920,
};
