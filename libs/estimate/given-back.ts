/** A returned old part. */
export interface CoreBack {
  readonly lineId: string;
  readonly itemId: string;
  /** Of the quantity that was sold. */
  readonly quantityHundredths: number;
}

/** What an owner gives back of what they were charged. */
export interface GivenBack {
  /** Ids of whole lines; what they carry of shared steps comes back with them. */
  readonly lineIds: readonly string[];
  readonly cores: readonly CoreBack[];
}

export const NOTHING_BACK: GivenBack = { lineIds: [], cores: [] };

/** All that is given back once `back` is added to what was given back `before`. */
export function backTogether(before: GivenBack, back: GivenBack): GivenBack {
  const quantities = new Map<string, CoreBack>();
  for (const core of [...before.cores, ...back.cores]) {
    const key = JSON.stringify([core.lineId, core.itemId]);
    const known = quantities.get(key)?.quantityHundredths ?? 0;
    quantities.set(key, { ...core, quantityHundredths: known + core.quantityHundredths });
  }
  return { lineIds: [...before.lineIds, ...back.lineIds], cores: [...quantities.values()] };
}
