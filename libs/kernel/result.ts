/** One bad field: a JSON pointer (RFC 6901) into the request and what to do about it. */
export interface FieldFault {
  readonly pointer: string;
  readonly detail: string;
}

/**
 * An expected failure, as a value. `code` is stable and listed in the table of problem codes; `detail` is a sentence
 * for the person who reads it and names the remedy; `facts` are extra members of the problem document (the holder
 * of a claim, the limit that was passed).
 */
export interface Fault<C extends string = string> {
  readonly code: C;
  readonly detail: string;
  readonly fields?: readonly FieldFault[];
  readonly facts?: Readonly<Record<string, unknown>>;
}

export type Ok<T> = { readonly ok: true; readonly value: T };
export type Failed<F extends Fault = Fault> = { readonly ok: false; readonly fault: F };
export type Result<T, F extends Fault = Fault> = Ok<T> | Failed<F>;

export function ok<T>(value: T): Ok<T> {
  return { ok: true, value };
}

export function fail<C extends string>(
  code: C,
  detail: string,
  more: Pick<Fault, 'fields' | 'facts'> = {},
): Failed<Fault<C>> {
  return { ok: false, fault: { code, detail, ...more } };
}
