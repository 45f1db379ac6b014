import type { TardyJob } from './tardiness-problem.js';

/** How the stretch that ends at a place was rearranged. */
const STAY = 0;
const SWAP = 1;
const LATER = 2;
const SOONER = 3;

/**
 * Descends from an order by the best set of moves on stretches that do not overlap, until no such set helps: exchanges of
 * two jobs, one job moved later, one moved sooner. All moves of a step are found together by dynamic programming over
 * places ("dynasearch": Congram, Potts, van de Velde 2002; with moves of one job: Grosso, Della Croce, Tadei 2004; both
 * from memory).
 */
export class Descent {
  /** Indices of jobs; place it, then `run`. */
  readonly order: Int32Array;
  private readonly size: number;
  private readonly duration: Float64Array;
  private readonly weight: Float64Array;
  private readonly due: Float64Array;
  // In the order of the places, which start at 1.
  private readonly long: Float64Array;
  private readonly heavy: Float64Array;
  private readonly wanted: Float64Array;
  private readonly end: Float64Array;
  private readonly best: Float64Array;
  /** What the jobs behind a place cost if its job left, up to the place looked at. */
  private readonly pulled: Float64Array;
  private readonly move: Int8Array;
  private readonly from: Int32Array;

  constructor(jobs: readonly TardyJob[]) {
    const size = jobs.length;
    this.size = size;
    this.order = Int32Array.from(jobs.keys());
    this.duration = Float64Array.from(jobs, (job) => job.duration);
    this.weight = Float64Array.from(jobs, (job) => job.weight);
    this.due = Float64Array.from(jobs, (job) => job.due);
    const places = (): Float64Array => new Float64Array(size + 1);
    this.long = places();
    this.heavy = places();
    this.wanted = places();
    this.end = places();
    this.best = places();
    this.pulled = places();
    this.move = new Int8Array(size + 1);
    this.from = new Int32Array(size + 1);
  }

  /** Descends as far as it goes and returns the weighted lateness. `until` is told about every step. */
  run(isLate: () => boolean): number {
    let now = this.lay();
    for (;;) {
      this.look();
      const next = this.best[this.size] ?? 0;
      if (next >= now) return now;
      this.make();
      now = this.lay();
      if (isLate()) return now;
    }
  }

  /** Fills the places from the order; the lateness as it is. */
  private lay(): number {
    const { order, long, heavy, wanted, end, size } = this;
    let time = 0;
    let lateness = 0;
    for (let place = 1; place <= size; place++) {
      const job = order[place - 1] ?? 0;
      const takes = this.duration[job] ?? 0;
      const weight = this.weight[job] ?? 0;
      const due = this.due[job] ?? 0;
      time += takes;
      long[place] = takes;
      heavy[place] = weight;
      wanted[place] = due;
      end[place] = time;
      if (time > due) lateness += weight * (time - due);
    }
    return lateness;
  }

  private look(): void {
    const { size, best, move, from, pulled } = this;
    pulled.fill(0);
    for (let place = 1; place <= size; place++) {
      best[place] = (best[place - 1] ?? 0) + this.costAt(place, this.end[place] ?? 0);
      move[place] = STAY;
      from[place] = place;
      this.moveSooner(place);
      this.moveLater(place);
      this.swap(place);
    }
  }

  private costAt(place: number, end: number): number {
    const late = end - (this.wanted[place] ?? 0);
    return late > 0 ? (this.heavy[place] ?? 0) * late : 0;
  }

  private offer(place: number, cost: number, move: number, from: number): void {
    if (cost >= (this.best[place] ?? 0)) return;
    this.best[place] = cost;
    this.move[place] = move;
    this.from[place] = from;
  }

  /** The job at `place` goes before an earlier one; the jobs between end later by its length. */
  private moveSooner(place: number): void {
    const { long, heavy, wanted, end, best } = this;
    const shift = long[place] ?? 0;
    let pushed = 0;
    for (let to = place - 1; to >= 1; to--) {
      const late = (end[to] ?? 0) + shift - (wanted[to] ?? 0);
      if (late > 0) pushed += (heavy[to] ?? 0) * late;
      if (pushed >= (best[place] ?? 0)) return;
      const before = (end[to] ?? 0) - (long[to] ?? 0);
      this.offer(place, (best[to - 1] ?? 0) + pushed + this.costAt(place, before + shift), SOONER, to);
    }
  }

  /** An earlier job goes behind the one at `place`; the jobs between end sooner by its length. */
  private moveLater(place: number): void {
    const { long, end, best, pulled } = this;
    const ends = end[place] ?? 0;
    for (let of = 1; of < place; of++) {
      const cost = (pulled[of] ?? 0) + this.costAt(place, ends - (long[of] ?? 0));
      pulled[of] = cost;
      this.offer(place, (best[of - 1] ?? 0) + cost + this.costAt(of, ends), LATER, of);
    }
  }

  /** The job at `place` and an earlier one change places; the jobs between shift by the difference of their lengths. */
  private swap(place: number): void {
    const { long, heavy, wanted, end, best } = this;
    const ends = end[place] ?? 0;
    const takes = long[place] ?? 0;
    for (let of = place - 2; of >= 1; of--) {
      const before = (end[of] ?? 0) - (long[of] ?? 0);
      const limit = best[place] ?? 0;
      let cost = (best[of - 1] ?? 0) + this.costAt(of, ends) + this.costAt(place, before + takes);
      if (cost >= limit) continue;
      const shift = takes - (long[of] ?? 0);
      for (let between = of + 1; between < place; between++) {
        const late = (end[between] ?? 0) + shift - (wanted[between] ?? 0);
        if (late > 0) {
          cost += (heavy[between] ?? 0) * late;
          if (cost >= limit) break;
        }
      }
      this.offer(place, cost, SWAP, of);
    }
  }

  /** Makes the moves that lead to the best, from the last place back. */
  private make(): void {
    const { order, move, from } = this;
    let place = this.size;
    while (place > 0) {
      const start = from[place] ?? place;
      const first = start - 1;
      const last = place - 1;
      const early = order[first] ?? 0;
      const late = order[last] ?? 0;
      if (move[place] === SWAP) {
        order[first] = late;
        order[last] = early;
      } else if (move[place] === LATER) {
        order.copyWithin(first, first + 1, last + 1);
        order[last] = early;
      } else if (move[place] === SOONER) {
        order.copyWithin(first + 1, first, last);
        order[first] = late;
      }
      place = start - 1;
    }
  }
}
