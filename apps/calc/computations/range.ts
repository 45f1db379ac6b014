import { ok } from '#libs/kernel';
import { closedForm, range as drawRange, rangeOfChoice } from '#libs/range';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readRange } from './read-range.js';

const SPREAD = 'low, likely, high';

/**
 * What an estimate's lines may come to. Low, likely and high can be one number where there is nothing between them. A
 * line that lists steps has their hours for its likely ones, and each step is paid for once.
 */
export const range: Computation = {
  name: 'range',
  shape:
    `{lines: [{id, rateCentsPerHour?, hundredths?: {${SPREAD}}, partsCents?: {${SPREAD}}, steps?: [id]}], ` +
    `steps?: [{id, hundredths}], ` +
    `contingencies?: [{id, chancePpm, rateCentsPerHour?, hundredths?, partsCents?, capCents?}], ` +
    `unseen?: [{id, chancePpm, cents: {${SPREAD}}}], commonSpreadPpm?: 0, ` +
    `taxes?: [{ratePpm, on: ["labour" | "parts" | "supplies"]}], ` +
    `supplies?: {ratePpm, floorCents?: 0, capCents?, base?: "labour" | "parts" | "labour-and-parts"}, ` +
    `fixedCents?: 0, seed?: 1, draws?: 10000} -> ` +
    `{p10Cents, p50Cents, p80Cents, p95Cents, meanCents, sdCents, likelyCents, ` +
    `shares: [{kind: "line" | "contingency" | "unseen" | "common", id, sharePpm}], ` +
    `closedForm: {meanCents, sdCents, shares} | null, draws, seed, ms}`,
  run: (element) => {
    const read = new FieldReader(element);
    const asked = readRange(read);
    return read.answer(() => {
      const start = performance.now();
      const priced = asked.price();
      if (!priced.ok) return priced;
      const input = rangeOfChoice(priced.value);
      const drawn = drawRange(input, asked.effort);
      if (!drawn.ok) return drawn;
      const ms = Math.round((performance.now() - start) * 1000) / 1000;
      const exact = closedForm(input);
      if (!exact.ok) return exact;
      const { draws, seed, shares, ...amounts } = drawn.value;
      const likelyCents = priced.value.price.totals.totalCents + priced.value.agreedCents;
      return ok({ ...amounts, likelyCents, shares, closedForm: exact.value, draws, seed, ms });
    });
  },
};
