import { kept } from './kept.js';
import type { Kept } from './kept.js';
import type { Timetable } from './timetable.js';

/** The places that operations had before an attempt, so that it can be taken back. */
export class TouchedPlaces {
  readonly was: Kept;
  private readonly touched: number[] = [];
  private readonly isTouched: Uint8Array;

  constructor(private readonly table: Timetable) {
    this.was = kept(table);
    this.isTouched = new Uint8Array(table.model.operations);
  }

  get count(): number {
    return this.touched.length;
  }

  /** Keeps the place that an operation has, if it is the first time in this attempt. */
  touch(o: number): void {
    if (this.isTouched[o] === 1) return;
    this.isTouched[o] = 1;
    this.touched.push(o);
    const { table, was } = this;
    const { toolKinds } = table.model;
    was.start[o] = table.start[o] ?? -1;
    was.end[o] = table.end[o] ?? -1;
    was.crew[o] = table.crew[o] ?? -1;
    was.bay[o] = table.bay[o] ?? -1;
    const slots = toolKinds.first[o + 1] ?? 0;
    for (let slot = toolKinds.first[o] ?? 0; slot < slots; slot++) was.unit[slot] = table.unit[slot] ?? -1;
  }

  putBack(): void {
    const { table, was } = this;
    for (const o of this.touched) if ((table.start[o] ?? -1) >= 0) table.take(o);
    for (const o of this.touched)
      if ((was.start[o] ?? -1) >= 0)
        table.put(o, was.start[o] ?? 0, was.end[o] ?? 0, was.crew[o] ?? 0, was.bay[o] ?? -1, was.unit);
    table.settle();
    this.forget();
  }

  forget(): void {
    for (const o of this.touched) this.isTouched[o] = 0;
    this.touched.length = 0;
  }
}
