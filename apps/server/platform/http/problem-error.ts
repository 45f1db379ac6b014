import type { Fault } from '#libs/kernel';
import type { ProblemCode } from './problem-codes.js';

/** Carries an expected failure from a use case to the filter that answers with problem+json. */
export class ProblemError extends Error {
  constructor(readonly fault: Fault) {
    super(`${fault.code}: ${fault.detail}`);
    this.name = 'ProblemError';
  }
}

/** Fails a request outside a use case (guards, pipes, controllers that read headers). */
export function problem(
  code: ProblemCode,
  detail: string,
  more: Pick<Fault, 'fields' | 'facts'> = {},
): ProblemError {
  return new ProblemError({ code, detail, ...more });
}
