/** What one operation of a line asks of the floor. */
export interface OperationNeeds {
  readonly needsLift: boolean;
  /** Kinds of bay in which it may be done; empty when any will do. */
  readonly bayKinds: readonly string[];
  readonly skills: readonly string[];
  readonly cautions: readonly string[];
  /** Special tools, by id. */
  readonly toolIds: readonly string[];
}

const union = (lists: readonly (readonly string[])[]): string[] => [...new Set(lists.flat())].sort();

/**
 * What a line asks of the floor as one piece of work: a lift if any operation needs one, every skill, tool and caution
 * of any of them, and a bay that suits them all. Where no one bay suits them all, the car has to be moved in between,
 * so any bay that suits one of them is allowed.
 */
export function needsOfOperations(operations: readonly OperationNeeds[]): OperationNeeds {
  const particular = operations.map(({ bayKinds }) => bayKinds).filter((kinds) => kinds.length > 0);
  const any = union(particular);
  const all = any.filter((kind) => particular.every((kinds) => kinds.includes(kind)));
  return {
    needsLift: operations.some(({ needsLift }) => needsLift),
    bayKinds: all.length > 0 ? all : any,
    skills: union(operations.map(({ skills }) => skills)),
    cautions: union(operations.map(({ cautions }) => cautions)),
    toolIds: union(operations.map(({ toolIds }) => toolIds)),
  };
}
