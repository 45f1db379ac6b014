import type { ProjectModel } from './project-model.js';

/** How much of the nonrenewable resources a choice of modes uses up. */
export class ModeBudget {
  private readonly used: Int32Array;
  private readonly kinds: number;

  constructor(private readonly model: ProjectModel) {
    this.kinds = model.nonrenewable.length;
    this.used = new Int32Array(this.kinds);
  }

  /** Units above what there is, over all resources. */
  measure(modes: Int32Array): number {
    const { consumes } = this.model;
    this.used.fill(0);
    for (const mode of modes) {
      for (let kind = 0; kind < this.kinds; kind++)
        this.used[kind] = (this.used[kind] ?? 0) + (consumes[mode * this.kinds + kind] ?? 0);
    }
    return this.excess();
  }

  excess(): number {
    let over = 0;
    for (let kind = 0; kind < this.kinds; kind++)
      over += Math.max(0, (this.used[kind] ?? 0) - (this.model.nonrenewable[kind] ?? 0));
    return over;
  }

  /** The excess if one mode took another's place in what was measured last. */
  excessWith(out: number, into: number): number {
    const { consumes, nonrenewable } = this.model;
    let over = 0;
    for (let kind = 0; kind < this.kinds; kind++) {
      const change = (consumes[into * this.kinds + kind] ?? 0) - (consumes[out * this.kinds + kind] ?? 0);
      over += Math.max(0, (this.used[kind] ?? 0) + change - (nonrenewable[kind] ?? 0));
    }
    return over;
  }

  swap(out: number, into: number): void {
    const { consumes } = this.model;
    for (let kind = 0; kind < this.kinds; kind++) {
      const change = (consumes[into * this.kinds + kind] ?? 0) - (consumes[out * this.kinds + kind] ?? 0);
      this.used[kind] = (this.used[kind] ?? 0) + change;
    }
  }

  /** Changes modes by chance, never for the worse, until they are within what there is or it has tried enough. */
  repair(modes: Int32Array, chance: () => number): number {
    const { size, firstMode } = this.model;
    let over = this.measure(modes);
    for (let turn = 0; over > 0 && turn < 20 * size; turn++) {
      const at = Math.floor(chance() * size);
      const first = firstMode[at] ?? 0;
      const into = first + Math.floor(chance() * ((firstMode[at + 1] ?? 0) - first));
      const out = modes[at] ?? 0;
      const next = this.excessWith(out, into);
      if (next > over) continue;
      this.swap(out, into);
      modes[at] = into;
      over = next;
    }
    return over;
  }
}
