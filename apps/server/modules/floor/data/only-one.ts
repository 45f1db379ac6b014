/** The record that was just stored, read back. */
export function onlyOne<T>(rows: readonly T[]): T {
  const [row] = rows;
  if (row === undefined) throw new Error('a record that was just stored is there');
  return row;
}
