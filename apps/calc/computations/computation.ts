import type { Result } from '#libs/kernel';

/** One pure computation that the command applies to each element of the input. */
export interface Computation {
  readonly name: string;
  /** The shape of an element and of its answer, for the list that an unknown name prints. */
  readonly shape: string;
  /** A bad element is a Fault, which is printed in the answer's place. */
  readonly run: (element: unknown) => Result<unknown>;
}
