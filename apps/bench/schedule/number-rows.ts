/** The rows of a text that are nothing but numbers, as numbers; remarks and headings are left out. */
export const numberRows = (text: string): readonly (readonly number[])[] =>
  text
    .split(/\r?\n/)
    .filter((row) => /^[\s\d.]*\d[\s\d.]*$/.test(row))
    .map((row) => row.trim().split(/\s+/).map(Number));
