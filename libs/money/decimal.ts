/** An exact decimal number: `units` / 10^`scale`. 10.05 is { units: 1005n, scale: 2 }. */
export interface Decimal {
  readonly units: bigint;
  /** Digits after the point; zero or more. */
  readonly scale: number;
}
