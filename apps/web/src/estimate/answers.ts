import type { Result } from '#libs/kernel';
import type { ApiFault } from '../api/fault.js';

export type Refused = Error & ApiFault;

/** The answer's value, or the refusal thrown, as a query wants it. */
export async function valueOf<T>(answer: Promise<Result<T, ApiFault>>): Promise<T> {
  const result = await answer;
  if (result.ok) return result.value;
  throw Object.assign(new Error(result.fault.detail), result.fault);
}

/** Quick while the server does not answer, and otherwise a backstop behind the live line. */
export const askAgain = (of: { readonly state: { readonly error: unknown } }): number =>
  of.state.error ? 5_000 : 120_000;
