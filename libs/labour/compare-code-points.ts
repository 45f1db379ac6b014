/** Order of texts by Unicode code points: the same on every machine and in every language, unlike a locale's order. */
export function compareCodePoints(a: string, b: string): number {
  const left = Array.from(a);
  const right = Array.from(b);
  const common = Math.min(left.length, right.length);
  for (let index = 0; index < common; index++) {
    const difference = (left[index]?.codePointAt(0) ?? 0) - (right[index]?.codePointAt(0) ?? 0);
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}
