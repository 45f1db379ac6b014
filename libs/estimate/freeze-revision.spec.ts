import { bookHundredths, cents, ppm } from '#libs/kernel';
import { addToAgreed } from './add-to-agreed.js';
import { NOTHING_AGREED } from './already-agreed.js';
import { canonicalJson } from './canonical-json.js';
import type { Json } from './canonical-json.js';
import { freezeRevision } from './freeze-revision.js';
import type { FrozenRevision, RevisionLine, RevisionToFreeze } from './frozen-revision.js';
import { priceFrozen } from './price-frozen.js';

const revisionLine = (over: Partial<RevisionLine> & Pick<RevisionLine, 'id'>): RevisionLine => ({
  title: 'Coolant pump',
  verdict: 'Repair',
  mayDrive: 'to the shop only',
  why: 'The shaft seal weeps and the bearing has play.',
  consequence: 'The pump may seize and throw the belt.',
  operations: ['Coolant pump, replace'],
  rateId: 'mechanical',
  rateCentsPerHour: cents(12950),
  steps: [
    { step: 'cover off', position: 'engine', hundredths: bookHundredths(80) },
    { step: over.id, position: 'engine', hundredths: bookHundredths(100) },
  ],
  items: [
    {
      id: `item ${over.id}`,
      kind: 'part',
      words: 'Pump',
      quantityHundredths: 100,
      unitPriceCents: cents(9900),
    },
  ],
  ...over,
});

const revision = (over: Partial<RevisionToFreeze> = {}): RevisionToFreeze => ({
  about: {
    repairOrder: 'R-1041',
    revision: 1,
    currency: 'USD',
    sentAt: '2031-05-06T09:12:00+02:00',
    note: null,
  },
  lines: [revisionLine({ id: 'pump' }), revisionLine({ id: 'belt', title: 'Timing belt' })],
  given: NOTHING_AGREED,
  policy: {
    taxes: [{ name: 'sales tax', ratePpm: ppm(72_500), on: ['part'] }],
    taxRounding: 'line',
    supplies: { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) },
  },
  ...over,
});

const frozen = (over: Partial<RevisionToFreeze> = {}): FrozenRevision => {
  const result = freezeRevision(revision(over));
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const textOf = (document: FrozenRevision): string => canonicalJson(document as unknown as Json);

describe('freezing a revision', () => {
  it('keeps the figures alone and with everything chosen', () => {
    // Alone 1.8 h = 233.10, supplies 13.986 → 13.99, part 99.00, tax 7.1775 → 7.18: 353.27.
    // Together 2.8 h = 362.60, supplies 21.756 → 21.76, parts 198.00, tax 14.36: 596.72; half of it for each line.
    const { lines, totals } = frozen();
    expect(
      lines.map(({ alone, together }) => [alone.totalCents, together.hundredths, together.totalCents]),
    ).toEqual([
      [35327, 140, 29836],
      [35327, 140, 29836],
    ]);
    expect(totals).toMatchObject({
      hundredths: 280,
      labourCents: 36260,
      suppliesCents: 2176,
      totalCents: 59672,
    });
  });

  it('survives a database that keeps the keys in another order, hash text and prices alike', () => {
    const document = frozen();
    const backwards = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(backwards);
      if (value === null || typeof value !== 'object') return value;
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([key, inner]) => [key, backwards(inner)]),
      );
    };
    const stored = backwards(JSON.parse(JSON.stringify(document))) as FrozenRevision;
    expect(textOf(stored)).toBe(textOf(document));
    expect(priceFrozen(stored, ['belt'])).toEqual(priceFrozen(document, ['belt']));
  });

  it('has another text as soon as a word, a figure or a condition is another', () => {
    const text = textOf(frozen());
    const lines = revision().lines;
    const [pump, belt] = lines as [RevisionLine, RevisionLine];
    const changes: Partial<RevisionToFreeze>[] = [
      { lines: [pump] },
      { lines: [belt, pump] },
      { lines: [pump, { ...belt, consequence: 'The belt may tear.' }] },
      { lines: [pump, { ...belt, verdict: 'Unsafe' }] },
      { lines: [pump, { ...belt, rateCentsPerHour: cents(12951) }] },
      { about: { ...revision().about, revision: 2 } },
      { policy: { ...revision().policy, taxRounding: 'invoice' } },
      { given: { ...NOTHING_AGREED, steps: [{ step: 'road test', position: 'vehicle' }] } },
    ];
    const texts = changes.map((change) => textOf(frozen(change)));
    expect(new Set([text, ...texts]).size).toBe(changes.length + 1);
  });

  it('holds nothing by accident and leaves nothing undefined', () => {
    const stray = { ...revisionLine({ id: 'pump' }), costCents: 4100, supplier: 'secret' };
    const document = frozen({ lines: [stray] });
    expect(textOf(document)).not.toMatch(/secret|costCents/);
    expect(JSON.parse(JSON.stringify(document))).toEqual(document);
    expect(document.lines[0]?.items[0]?.coreCents).toBe(0);
  });

  it('prices any choice from the document alone, and a later yes with what was agreed meanwhile', () => {
    const document = frozen();
    const first = priceFrozen(document, ['pump']);
    if (!first.ok) throw new Error(first.fault.detail);
    expect(first.value.totals.totalCents).toBe(document.lines[0]?.alone.totalCents);
    const later = priceFrozen(document, ['belt'], addToAgreed(document.given, document.lines, first.value));
    // The cover is off already: 1.0 h = 129.50, supplies 21.76 − 13.99, part 99.00, tax 7.18.
    expect(later).toMatchObject({ ok: true, value: { totals: { hundredths: 100, totalCents: 24345 } } });
  });

  it('is refused without lines, without words, or when it cannot be priced', () => {
    expect(freezeRevision(revision({ lines: [] }))).toMatchObject({
      ok: false,
      fault: { code: 'revision-empty' },
    });
    const mute = revisionLine({ id: 'pump', consequence: ' ', items: [] });
    const nameless = revisionLine({ id: 'belt' });
    const [item] = nameless.items;
    const unnamed = { ...nameless, items: item === undefined ? [] : [{ ...item, words: '' }] };
    expect(freezeRevision(revision({ lines: [mute, unnamed] }))).toMatchObject({
      ok: false,
      fault: {
        code: 'line-words-missing',
        fields: [{ pointer: '/lines/0/consequence' }, { pointer: '/lines/1/items/0/words' }],
      },
    });
    const twice = [revisionLine({ id: 'pump' }), revisionLine({ id: 'pump' })];
    expect(freezeRevision(revision({ lines: twice }))).toMatchObject({
      fault: { code: 'line-listed-twice' },
    });
  });
});
