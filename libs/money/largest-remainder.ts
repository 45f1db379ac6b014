/**
 * Shares `total` whole units out in proportion to `weights`; the parts add up to `total` exactly. Each part is its exact
 * share rounded down or up; the units left over go to the largest remainders, ties to the earlier index (Hamilton's
 * method of apportionment). When every weight is zero, nothing tells the parts apart, so they share alike.
 *
 * @throws RangeError for a negative total or weight, and for a total above zero without any weight.
 */
export function largestRemainder(total: bigint, weights: readonly bigint[]): bigint[] {
  if (total < 0n) throw new RangeError('largestRemainder: the total is negative');
  if (weights.some((weight) => weight < 0n)) throw new RangeError('largestRemainder: a weight is negative');
  if (weights.length === 0) {
    if (total !== 0n) throw new RangeError('largestRemainder: there is a total but nothing to share it over');
    return [];
  }
  const given = weights.reduce((sum, weight) => sum + weight, 0n);
  const used = given === 0n ? weights.map(() => 1n) : weights;
  const whole = given === 0n ? BigInt(weights.length) : given;

  const parts = used.map((weight) => (total * weight) / whole);
  const left = total - parts.reduce((sum, part) => sum + part, 0n);
  const byRemainder = used
    .map((weight, index) => ({ index, remainder: (total * weight) % whole }))
    .sort((a, b) => (a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1));
  const raised = new Set(byRemainder.slice(0, Number(left)).map(({ index }) => index));
  return parts.map((part, index) => (raised.has(index) ? part + 1n : part));
}
