/**
 * Three whole numbers: never below `low`, most often near `likely`, never above `high`. Drawn from the triangular
 * distribution with these as its least, its peak and its greatest value; three alike are a point.
 */
export interface Spread {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export const point = (at: number): Spread => ({ low: at, likely: at, high: at });

export const isPoint = ({ low, high }: Spread): boolean => low === high;
