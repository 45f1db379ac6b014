import type { Result } from '#libs/kernel';

/** The seed is ours: a refusal is a mistake in it, not an expected failure. */
export function must<T>(result: Result<T>): T {
  if (!result.ok)
    throw new Error(
      `demonstration shop: ${result.fault.detail} ${JSON.stringify(result.fault.fields ?? [])}`,
    );
  return result.value;
}

export function known<T>(map: ReadonlyMap<string, T>, name: string): T {
  const found = map.get(name);
  if (found === undefined) throw new Error(`demonstration shop: ${name} is not described`);
  return found;
}
