/** The fields of a change request that were given: left out means unchanged, null is a value. */
export function definedOnly<T extends object>(request: T): Partial<T> {
  return Object.fromEntries(Object.entries(request).filter(([, value]) => value !== undefined)) as Partial<T>;
}
