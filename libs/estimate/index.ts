export * from './add-to-agreed.js';
export * from './agreed-from.js';
export * from './already-agreed.js';
export * from './breakdown.js';
export * from './canonical-json.js';
export * from './carried-steps.js';
export type { ChoiceFault, ChoiceInput } from './check-choice.js';
export * from './choice-price.js';
export { contingencyCharge, type ContingencyCharge, type ContingencyToCharge } from './contingency-charge.js';
export * from './credit.js';
export * from './credited-line.js';
export * from './estimate-line.js';
export * from './expand-line.js';
export * from './expand-positions.js';
export { MOST_PACKAGES } from './figure-faults.js';
export * from './freeze-revision.js';
export * from './frozen-revision.js';
export * from './given-back.js';
export * from './item-price.js';
export { itemsOfLine, taxableItems, type ItemsOfLine, type PricedItem } from './items-of-line.js';
export * from './less-agreed.js';
export * from './line-package.js';
export { isCharged } from './effective-rate.js';
export * from './order-discount.js';
export { packageKey, packageRange } from './package-hours.js';
export * from './position.js';
export * from './price-choice.js';
export * from './price-frozen.js';
export * from './pricing-policy.js';
export * from './read-frozen.js';
export * from './settle.js';
export * from './settle-deposit.js';
export * from './total-pricer.js';
export {
  CHARGES,
  prepareEstimate,
  type PreparedEstimate,
  type PreparedLine,
  type PricingTerms,
} from './prepare-estimate.js';
