import type { Member } from './member.js';
import type { ProjectModel } from './project-model.js';

/** Stretches looked at, of which the busiest is handed on. */
const TRIES = 3;

/**
 * Hands a busy stretch of one schedule on as a whole (as the peak crossover of Valls, Ballestín, Quintanilla 2008 does, from
 * memory): where the resources are used most there is least left to gain, so it is not torn apart.
 */
export class BlockCrossing {
  private readonly isTaken: Uint8Array;
  private readonly isInBlock: Uint8Array;
  /** In the block, or something in it waits for it. */
  private readonly isNeeded: Uint8Array;

  constructor(
    private readonly model: ProjectModel,
    private readonly chance: () => number,
  ) {
    this.isTaken = new Uint8Array(model.size);
    this.isInBlock = new Uint8Array(model.size);
    this.isNeeded = new Uint8Array(model.size);
  }

  /** The block in the mother's order, where the father's list first has one of it; around it the father's order. */
  cross(mother: Member, father: Member, child: Member): void {
    const { isTaken, isInBlock, isNeeded } = this;
    this.mark(mother, this.busyStretch(mother));
    isTaken.fill(0);
    let place = 0;
    const take = (activity: number, from: Member): void => {
      child.list[place++] = activity;
      child.modes[activity] = from.modes[activity] ?? 0;
      isTaken[activity] = 1;
    };
    for (const activity of father.list) {
      if (isTaken[activity] === 1) continue;
      if (isInBlock[activity] === 1) {
        for (const before of father.list) {
          if (isNeeded[before] === 1 && isInBlock[before] === 0 && isTaken[before] === 0)
            take(before, father);
        }
        for (const own of mother.list) if (isInBlock[own] === 1) take(own, mother);
      } else take(activity, father);
    }
  }

  private busyStretch({ starts, modes, makespan }: Member): [number, number] {
    const { size, duration, load } = this.model;
    let stretch: [number, number] = [0, 0];
    let highest = -1;
    for (let turn = 0; turn < TRIES; turn++) {
      const length = Math.max(1, Math.floor(makespan * (0.05 + 0.35 * this.chance())));
      const from = Math.floor(this.chance() * (makespan - length + 1));
      let use = 0;
      for (let at = 0; at < size; at++) {
        const start = starts[at] ?? 0;
        const mode = modes[at] ?? 0;
        const shared = Math.min(from + length, start + (duration[mode] ?? 0)) - Math.max(from, start);
        if (shared > 0) use += shared * (load[mode] ?? 0);
      }
      if (use / length <= highest) continue;
      highest = use / length;
      stretch = [from, from + length];
    }
    return stretch;
  }

  /** What runs within the stretch. Nothing outside it both waits for one of these and is waited for by another. */
  private mark({ list, starts, modes }: Member, [from, to]: [number, number]): void {
    const { duration, successors } = this.model;
    const { isInBlock, isNeeded } = this;
    for (let place = list.length - 1; place >= 0; place--) {
      const at = list[place] ?? 0;
      const start = starts[at] ?? 0;
      const isWithin = start < to && start + (duration[modes[at] ?? 0] ?? 0) > from;
      isInBlock[at] = isWithin ? 1 : 0;
      let needed = isWithin;
      const end = successors.first[at + 1] ?? 0;
      for (let index = successors.first[at] ?? 0; index < end && !needed; index++)
        needed = isNeeded[successors.at[index] ?? 0] === 1;
      isNeeded[at] = needed ? 1 : 0;
    }
  }
}
