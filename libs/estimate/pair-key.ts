/** One text for a step at a position, which no two different pairs share. */
export function pairKey({ step, position }: { readonly step: string; readonly position: string }): string {
  // The length says where the step ends, whatever characters it holds.
  return `${step.length}:${step}${position}`;
}
