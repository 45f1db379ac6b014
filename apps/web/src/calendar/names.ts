import type { BayOfShop, ToolOfShop } from './types.js';

/** `Bay 3, Back wall`: the number is what is painted on the floor. */
export function bayName(bays: readonly BayOfShop[], id: string, name: string): string {
  const bay = bays.find((one) => one.id === id);
  return bay ? `Bay ${bay.number}, ${bay.name}` : name;
}

/** The number of the unit only where there are several. */
export function unitName(tools: readonly ToolOfShop[], id: string, name: string, unit: number): string {
  const units = tools.find((one) => one.id === id)?.units ?? 1;
  return units === 1 ? name : `${name}, number ${unit}`;
}
