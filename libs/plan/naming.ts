/** How an id of the problem stands in words. */
export type Naming = (id: string) => string;

export interface Wording {
  /** Left out, ids stand in quotation marks. */
  readonly names?: Naming;
}

export const quoted: Naming = (id) => `"${id}"`;
