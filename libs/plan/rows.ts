/** Lists of whole numbers in one array: those of row `i` stand from `first[i]` to before `first[i + 1]`. */
export interface Rows {
  readonly first: Int32Array;
  readonly item: Int32Array;
}

export function rowsOf(lists: readonly (readonly number[])[]): Rows {
  const first = new Int32Array(lists.length + 1);
  lists.forEach((list, i) => (first[i + 1] = (first[i] ?? 0) + list.length));
  return { first, item: Int32Array.from(lists.flat()) };
}
