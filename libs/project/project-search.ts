import { BlockCrossing } from './block-crossing.js';
import { Crossing } from './crossing.js';
import { copyMember, costOf, isSameSchedule, newMember } from './member.js';
import type { Member } from './member.js';
import { ModeBudget } from './mode-budget.js';
import type { ProjectModel } from './project-model.js';
import { ScheduleMaker } from './schedule-maker.js';

export interface SearchTuning {
  /** Of the first population; each that follows has twice as many, up to `mostMembers`. */
  readonly members: number;
  readonly mostMembers: number;
  /** Children for each member, none of which improves any, before another population starts from nothing. */
  readonly patience: number;
  readonly shuffleRate: number;
  /** How often a child is one plan loosened in one stretch instead of a crossing. */
  readonly loosenRate: number;
  /** How often a crossing keeps a busy stretch as a whole. */
  readonly blockRate: number;
  /** How often an activity with several modes takes the one that is done first. */
  readonly chooseRate: number;
}

export const USUAL_TUNING: SearchTuning = {
  members: 50,
  mostMembers: 800,
  patience: 40,
  shuffleRate: 0.05,
  loosenRate: 0.3,
  blockRate: 0.5,
  chooseRate: 0.25,
};

/**
 * A population of activity lists (genetic algorithm with double justification, after Hartmann 1998 and Valls,
 * Ballestín, Quintanilla 2008, from memory), with children that loosen one stretch of a good plan. When a population no
 * longer improves, one of twice the size takes its place, so that short and long runs both have one that suits.
 */
export class ProjectSearch {
  best: Member;
  readonly maker: ScheduleMaker;
  private readonly budget: ModeBudget;
  private readonly crossing: Crossing;
  private readonly blocks: BlockCrossing;
  private readonly people: Member[] = [];
  private spare: Member;
  private members: number;
  private stale = 0;
  private readonly isMulti: boolean;
  /** Of the member that is being made. */
  private modes: Int32Array;
  private readonly choose: (at: number, from: number) => number;

  constructor(
    private readonly model: ProjectModel,
    private readonly chance: () => number,
    private readonly tuning: SearchTuning,
  ) {
    this.maker = new ScheduleMaker(model);
    this.budget = new ModeBudget(model);
    this.crossing = new Crossing(model, chance);
    this.blocks = new BlockCrossing(model, chance);
    this.members = tuning.members;
    this.isMulti = model.duration.length > model.size;
    this.spare = newMember(model.size);
    this.modes = this.spare.modes;
    this.choose = (at, from) => this.modeFor(at, from);
    this.crossing.fresh(this.spare, 0);
    this.best = { ...this.spare, makespan: Infinity };
    this.people.push(this.make(this.spare));
    this.spare = newMember(model.size);
  }

  /** Makes one more plan. */
  step(): void {
    const { people, tuning } = this;
    if (people.length < this.members) {
      this.addMember();
      return;
    }
    const child = this.spare;
    const mother = Math.floor(this.chance() * people.length);
    if (this.chance() < tuning.loosenRate) this.loosen(this.memberAt(mother), child);
    else this.cross(this.memberAt(mother), child);
    this.make(child);
    this.replace(mother, child);
    if (++this.stale <= tuning.patience * this.members) return;
    this.stale = 0;
    people.length = 0;
    this.members = Math.min(tuning.mostMembers, 2 * this.members);
  }

  private addMember(): void {
    const member = newMember(this.model.size);
    this.crossing.fresh(member, 0.2 + 0.8 * this.chance());
    this.make(member);
    this.people.push(member);
  }

  private memberAt(place: number): Member {
    return this.people[place] ?? this.best;
  }

  private loosen(parent: Member, child: Member): void {
    const stretch = Math.ceil(parent.makespan * (0.05 + 0.35 * this.chance()));
    this.crossing.loosen(parent, child, stretch);
    if (this.isMulti) this.changeModes(child);
  }

  private cross(mother: Member, child: Member): void {
    const father = this.pick();
    if (this.chance() < this.tuning.blockRate) this.blocks.cross(mother, father, child);
    else if (this.chance() < 0.5) this.crossing.endsOf(mother, father, child);
    else this.crossing.middleOf(mother, father, child);
    this.crossing.shuffle(child, this.tuning.shuffleRate);
    if (this.isMulti) this.changeModes(child);
  }

  private changeModes({ modes }: Member): void {
    const { firstMode, size } = this.model;
    for (let at = 0; at < size; at++) {
      if (this.chance() >= this.tuning.shuffleRate / 2) continue;
      const first = firstMode[at] ?? 0;
      modes[at] = first + Math.floor(this.chance() * ((firstMode[at + 1] ?? 0) - first));
    }
  }

  /** The better of two by chance. */
  private pick(): Member {
    const one = this.memberAt(Math.floor(this.chance() * this.people.length));
    const other = this.memberAt(Math.floor(this.chance() * this.people.length));
    return costOf(one) <= costOf(other) ? one : other;
  }

  private make(member: Member): Member {
    const { maker } = this;
    const { list, modes, starts } = member;
    if (this.isMulti) {
      this.budget.repair(modes, this.chance);
      this.modes = modes;
      const first = maker.forwardChoosing(list, modes, starts, this.choose);
      maker.sortBy(list, starts);
      member.makespan = maker.justify(list, modes, starts, first);
      member.excess = this.budget.excess();
    } else {
      member.makespan = maker.justify(list, modes, starts, maker.forward(list, modes, starts));
    }
    if (costOf(member) < costOf(this.best)) {
      this.best = newMember(this.model.size);
      copyMember(member, this.best);
    }
    return member;
  }

  /** Of the modes that the nonrenewable resources allow, now and then the one that is done first. */
  private modeFor(at: number, from: number): number {
    const { firstMode } = this.model;
    const first = firstMode[at] ?? 0;
    const end = firstMode[at + 1] ?? 0;
    const own = this.modes[at] ?? first;
    if (end - first < 2 || this.chance() >= this.tuning.chooseRate) return own;
    const over = this.budget.excess();
    let best = own;
    let done = this.maker.doneAt(own, from);
    for (let mode = first; mode < end; mode++) {
      if (mode === own || this.budget.excessWith(best, mode) > over) continue;
      const ends = this.maker.doneAt(mode, from);
      if (ends >= done) continue;
      this.budget.swap(best, mode);
      best = mode;
      done = ends;
    }
    return best;
  }

  /**
   * A child takes the place of its mother only, unless it is worse or already there: so the population stays varied (crowding,
   * common practice).
   */
  private replace(place: number, child: Member): void {
    const mother = this.memberAt(place);
    const gain = costOf(mother) - costOf(child);
    if (gain < 0 || this.people.some((one) => isSameSchedule(one, child))) return;
    if (gain > 0) this.stale = 0;
    this.people[place] = child;
    this.spare = mother;
  }
}
