import { Blend } from './blend.js';
import type { Chance } from '#libs/chance';
import { dispatch } from './start-plans.js';
import type { PlanWalk } from './plan-walk.js';
import { emptyKept } from './sequences.js';
import type { Kept, Sequences } from './sequences.js';

/** Plans in a group on the first level, and on those above, whose members are the best of whole groups. */
const MEMBERS = 16;
const MEMBERS_ABOVE = 5;
/** Moves without a shorter plan before a walk on the first level ends; each level above is more patient. */
const PATIENCE = 1000;
const MORE_PATIENT = 1.5;
/** Children in a row, by member, that did not get into the group before it is left. */
const BARREN = 3;
/** Plans that differ in less than this share of the operations count as one. */
const ALIKE = 0.1;
/** How far the order by which the first plans are built is shaken. */
const SHAKEN = 0.6;

/**
 * Groups of plans, each plan at the end of a walk. Children of two members are between them (`Blend`), walk, and take
 * the place of a worse member; plans that are alike take one place only. When a group brings nothing new, its best
 * becomes a member of a group one level up, and so on as long as there is time (in the manner of path relinking,
 * B. Peng, Z. Lü, T. C. E. Cheng 2015, from memory; the levels are our own).
 */
export class Evolution {
  readonly best: Kept;
  private readonly child: Kept;
  private readonly blend: Blend;
  /** New plans in a row that were alike to one of their group. */
  private alike = 0;

  constructor(
    private readonly plan: Sequences,
    private readonly walk: PlanWalk,
    private readonly chance: Chance,
    private readonly isOver: () => boolean,
    private readonly target: number,
  ) {
    this.best = emptyKept(plan.layout);
    this.child = emptyKept(plan.layout);
    this.blend = new Blend(plan.layout);
  }

  /** A first plan at once. */
  begin(): void {
    dispatch(this.plan.layout, this.chance, 0, this.best);
  }

  run(): void {
    if (this.isDone()) return;
    let best = this.grow(0);
    for (let level = 1; !this.isDone(); level++) best = this.evolve(level, best);
  }

  private isDone(): boolean {
    return this.isOver() || this.best.makespan <= this.target;
  }

  /** A new plan as good as its level makes it. */
  private grow(level: number): Kept {
    if (level > 0) return this.evolve(level, this.grow(level - 1));
    // Where plan after plan comes out alike, as in the smallest problems, they must start further apart.
    dispatch(this.plan.layout, this.chance, SHAKEN * (1 + this.alike), this.child);
    this.improve(PATIENCE);
    return this.keep();
  }

  /** Lets a group, to which `first` belongs, bear children as long as some of them get on; the best of it. */
  private evolve(level: number, first: Kept): Kept {
    const { plan, chance } = this;
    const size = level === 1 ? MEMBERS : MEMBERS_ABOVE;
    const patience = PATIENCE * MORE_PATIENT ** (level - 1);
    const group = [first];
    for (let tries = 0; group.length < size && tries < 2 * size && !this.isDone(); tries++) {
      plan.load(this.grow(level - 1));
      this.alike = this.join(group, size) ? 0 : this.alike + 1;
    }
    let barren = 0;
    while (group.length > 1 && barren < BARREN * size && !this.isDone()) {
      const one = chance.below(group.length);
      const another = (one + 1 + chance.below(group.length - 1)) % group.length;
      const share = 0.3 + 0.4 * chance.part();
      this.blend.mix(group[one] ?? first, group[another] ?? first, share, chance, this.child);
      this.improve(patience);
      barren = this.join(group, size) ? Math.max(0, barren - size / 2) : barren + 1;
    }
    return group.reduce((best, kept) => (kept.makespan < best.makespan ? kept : best));
  }

  /** Walks from the child. */
  private improve(patience: number): void {
    const { plan, best } = this;
    plan.load(this.child);
    this.walk.walk(patience, this.target);
    if (plan.makespan < best.makespan) plan.save(best);
  }

  private keep(): Kept {
    const kept = emptyKept(this.plan.layout);
    this.plan.save(kept);
    return kept;
  }

  /** Offers the plan to a group; whether that made the group better. */
  private join(group: Kept[], size: number): boolean {
    const { plan } = this;
    let [nearest, worst] = [group[0], group[0]];
    let least = Infinity;
    for (const kept of group) {
      const differing = this.differing(kept);
      if (differing < least) [least, nearest] = [differing, kept];
      if (worst === undefined || kept.makespan > worst.makespan) worst = kept;
    }
    if (nearest !== undefined && least < Math.max(1, Math.floor(ALIKE * plan.layout.size))) {
      const isBetter = plan.makespan < nearest.makespan;
      if (plan.makespan <= nearest.makespan) plan.save(nearest);
      return isBetter;
    }
    if (group.length < size) {
      group.push(this.keep());
      return true;
    }
    if (worst === undefined || plan.makespan >= worst.makespan) return false;
    plan.save(worst);
    return true;
  }

  /** How many operations are done another way or have another behind them. */
  private differing(kept: Kept): number {
    const { after, way, layout } = this.plan;
    let count = 0;
    for (let o = 0; o < layout.size; o++) if (after[o] !== kept.after[o] || way[o] !== kept.way[o]) count++;
    return count;
  }
}
