export interface Completeness {
  readonly total: number;
  readonly seen: number;
  /** Checkpoints without an observation, in walking order. An `unseen` one with its reason is not missing. */
  readonly missing: readonly string[];
  readonly isComplete: boolean;
}

/** How far a walk over a vehicle has come. Observations of checkpoints that are not on the walk do not count. */
export function completeness(
  checkpoints: readonly { readonly id: string }[],
  observations: readonly { readonly checkpointId: string }[],
): Completeness {
  const observed = new Set(observations.map((observation) => observation.checkpointId));
  const missing = checkpoints.map((checkpoint) => checkpoint.id).filter((id) => !observed.has(id));
  const total = checkpoints.length;
  return { total, seen: total - missing.length, missing, isComplete: missing.length === 0 };
}
