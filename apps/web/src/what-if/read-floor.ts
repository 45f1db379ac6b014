import { call } from '../api/client.js';
import { valueOf } from '../estimate/answers.js';

/** What can be one more of, or one less. */
export interface Thing {
  readonly id: string;
  readonly name: string;
}

export interface Floor {
  readonly bays: readonly Thing[];
  readonly technicians: readonly Thing[];
  readonly tools: readonly Thing[];
}

export async function readFloor(signal: AbortSignal): Promise<Floor> {
  const [bays, technicians, tools] = await Promise.all([
    valueOf(call('get', '/api/v1/bays', { signal })),
    valueOf(call('get', '/api/v1/technicians', { signal })),
    valueOf(call('get', '/api/v1/special-tools', { signal })),
  ]);
  return {
    bays: bays.items.filter(({ isActive }) => isActive),
    technicians: technicians.items
      .filter(({ isActive }) => isActive)
      .map(({ id, displayName }) => ({ id, name: displayName })),
    tools: tools.items,
  };
}
