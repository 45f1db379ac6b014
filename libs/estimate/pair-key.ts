/** One text for a step at a position, which no two different pairs share. */
export function pairKey({ step, position }: { readonly step: string; readonly position: string }): string {
  return JSON.stringify([step, position]);
}
