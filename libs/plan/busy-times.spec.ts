import fc from 'fast-check';
import { BusyTimes } from './busy-times.js';

interface Entry {
  readonly from: number;
  readonly to: number;
}

const entry = fc
  .tuple(fc.nat(60), fc.integer({ min: 1, max: 12 }))
  .map(([from, minutes]): Entry => ({ from, to: from + minutes }));

describe('what takes a resource', () => {
  it('is found as by looking at every entry, also where a car stands in its own stay', () => {
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 24 }), fc.nat(70), fc.nat(8), (entries, from, minutes) => {
        const list = new BusyTimes();
        entries.forEach((one, owner) => list.add(one.from, one.to, owner));
        const to = from + 1 + minutes;
        expect(list.isFree(from, to)).toBe(!entries.some((one) => one.from < to && one.to > from));
        const first = list.firstEndingAfter(from);
        expect(Array.from(list.to.subarray(0, first)).every((end) => end <= from)).toBe(true);
        expect(first === list.count || (list.to[first] ?? 0) > from).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('is found again after some of it is gone', () => {
    const list = new BusyTimes();
    list.add(0, 50, 1);
    list.add(10, 20, 2);
    list.add(60, 70, 3);
    list.remove(10, 2);
    expect(list.isFree(25, 30)).toBe(false);
    expect(list.isFree(50, 60)).toBe(true);
    list.remove(0, 1);
    expect(list.isFree(25, 30)).toBe(true);
  });
});
