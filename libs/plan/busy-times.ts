/** When one resource is taken and by whom, in order of starts; -1 takes it when it is closed. */
export class BusyTimes {
  count = 0;
  from = new Int32Array(16);
  to = new Int32Array(16);
  owner = new Int32Array(16);
  /** Whether no two entries were ever in it at the same time, so that their ends are in order too. */
  private isApart = true;

  add(from: number, to: number, owner: number): void {
    if (this.count === this.from.length) this.grow();
    let at = this.count++;
    while (at > 0 && (this.from[at - 1] ?? 0) > from) {
      this.from[at] = this.from[at - 1] ?? 0;
      this.to[at] = this.to[at - 1] ?? 0;
      this.owner[at] = this.owner[at - 1] ?? 0;
      at--;
    }
    this.from[at] = from;
    this.to[at] = to;
    this.owner[at] = owner;
    if (at > 0 && (this.to[at - 1] ?? 0) > from) this.isApart = false;
    if (at + 1 < this.count && (this.from[at + 1] ?? 0) < to) this.isApart = false;
  }

  remove(from: number, owner: number): void {
    let at = 0;
    while (at < this.count && (this.from[at] !== from || this.owner[at] !== owner)) at++;
    if (at === this.count) return;
    this.count--;
    for (; at < this.count; at++) {
      this.from[at] = this.from[at + 1] ?? 0;
      this.to[at] = this.to[at + 1] ?? 0;
      this.owner[at] = this.owner[at + 1] ?? 0;
    }
  }

  /** The first entry that ends after a time. */
  firstEndingAfter(time: number): number {
    const { to, count } = this;
    let low = 0;
    if (!this.isApart) {
      while (low < count && (to[low] ?? 0) <= time) low++;
      return low;
    }
    for (let high = count; low < high;) {
      const middle = (low + high) >> 1;
      if ((to[middle] ?? 0) > time) high = middle;
      else low = middle + 1;
    }
    return low;
  }

  /** Whether nobody has it in [from, to). */
  isFree(from: number, to: number): boolean {
    const first = this.firstEndingAfter(from);
    return first === this.count || (this.from[first] ?? 0) >= to;
  }

  private grow(): void {
    const wider = (list: Int32Array): Int32Array<ArrayBuffer> => {
      const copy = new Int32Array(2 * list.length);
      copy.set(list);
      return copy;
    };
    this.from = wider(this.from);
    this.to = wider(this.to);
    this.owner = wider(this.owner);
  }
}
