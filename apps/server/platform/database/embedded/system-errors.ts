// Duck-typed on purpose: an error from Node's own modules is not an `instanceof Error` in a test's own global scope.

/** True for an error of the operating system with this name, such as `EEXIST`. */
export function isCode(error: unknown, code: string): boolean {
  return typeof error === 'object' && error !== null && 'code' in error && error.code === code;
}

export function messageOf(error: unknown): string {
  return typeof error === 'object' && error !== null && 'message' in error
    ? String(error.message)
    : String(error);
}
