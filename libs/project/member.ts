/** A schedule that the search keeps: how it is made, and what it comes to. */
export interface Member {
  /** Activities in the order of their starts. */
  readonly list: Int32Array;
  readonly modes: Int32Array;
  readonly starts: Int32Array;
  makespan: number;
  /** Units of nonrenewable resources above what there is. */
  excess: number;
}

export const newMember = (size: number): Member => ({
  list: new Int32Array(size),
  modes: new Int32Array(size),
  starts: new Int32Array(size),
  makespan: 0,
  excess: 0,
});

/** Lower is better; above the resources is always worse than within them. */
export const costOf = (member: Member): number =>
  member.makespan + (member.excess > 0 ? 1e6 + member.excess * 100 : 0);

export function copyMember(from: Member, to: Member): void {
  to.list.set(from.list);
  to.modes.set(from.modes);
  to.starts.set(from.starts);
  to.makespan = from.makespan;
  to.excess = from.excess;
}

export function isSameSchedule(one: Member, other: Member): boolean {
  if (one.makespan !== other.makespan) return false;
  for (let at = 0; at < one.starts.length; at++) {
    if (one.starts[at] !== other.starts[at] || one.modes[at] !== other.modes[at]) return false;
  }
  return true;
}
