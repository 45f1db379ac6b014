import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { anyChoice } from '../../test/support/any-estimate.js';
import { addToAgreed } from './add-to-agreed.js';
import { NOTHING_AGREED } from './already-agreed.js';
import { canonicalJson } from './canonical-json.js';
import type { Json } from './canonical-json.js';
import type { Figures } from './choice-price.js';
import { freezeRevision } from './freeze-revision.js';
import type { FrozenRevision, RevisionLine, RevisionToFreeze } from './frozen-revision.js';
import { priceChoice } from './price-choice.js';
import { priceFrozen } from './price-frozen.js';
import { readFrozen } from './read-frozen.js';

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

  it('carries what a choice within a budget, a range and a contingency need, and nothing else', () => {
    const choice = {
      benefit: 80,
      why: 'It keeps the car running.',
      mustInclude: false,
      requires: ['belt'],
      excludes: [],
    };
    const spread = {
      lowHundredths: bookHundredths(150),
      highHundredths: bookHundredths(260),
      lowItemsCents: cents(8000),
      highItemsCents: cents(12_000),
    };
    const seized = {
      id: 'seized',
      what: 'a bolt of the cover shears off',
      chancePpm: ppm(120_000),
      hundredths: bookHundredths(60),
      capCents: cents(15_000),
      items: [
        {
          id: 'insert',
          kind: 'part',
          words: 'Thread insert',
          quantityHundredths: 100,
          unitPriceCents: cents(900),
        },
      ],
    } as const;
    const unseen = {
      checkpointId: 'rear-bushes',
      words: 'Rear bushes',
      chancePpm: ppm(300_000),
      lowCents: cents(10_000),
      likelyCents: cents(18_000),
      highCents: cents(30_000),
    };
    const document = frozen({
      lines: [
        {
          ...revisionLine({ id: 'pump', choice, spread }),
          contingencies: [{ ...seized, secret: 1 } as typeof seized],
        },
        revisionLine({
          id: 'belt',
          noCharge: 'goodwill',
          discount: { itemsPpm: ppm(100_000), reason: 'a regular' },
        }),
      ],
      unseen: [unseen],
      vehicleValueCents: cents(240_000),
      orderDiscount: { cents: cents(2500), reason: 'spring' },
      packages: [{ name: 'Both', lineIds: ['pump', 'belt'], hundredths: bookHundredths(250) }],
    });
    expect(document.format).toBe(2);
    expect(document.lines[0]).toMatchObject({ choice, spread, contingencies: [seized] });
    expect(document.lines[1]).toMatchObject({ noCharge: 'goodwill', discount: { itemsPpm: 100_000 } });
    expect(document).toMatchObject({ unseen: [unseen], vehicleValueCents: 240_000 });
    // 2.80 h together; the pump pays for the shared cover and its own hour, the 0.30 h saved come off the belt's hour.
    expect(document.packages?.[0]?.steps?.map(({ step, hundredths }) => [step, hundredths])).toEqual([
      ['belt', 70],
      ['pump', 100],
      ['cover off', 80],
    ]);
    expect(textOf(document)).not.toMatch(/secret/);
    expect(JSON.parse(JSON.stringify(document))).toEqual(document);
    expect(frozen()).not.toHaveProperty('unseen');
    expect(frozen().lines[0]).not.toHaveProperty('discount');
  });

  it('prices every choice as the draft did, whatever its terms', () => {
    fc.assert(
      fc.property(anyChoice(5), (input) => {
        const lines = input.lines.map((line): RevisionLine => ({
          ...revisionLine({ id: line.id }),
          ...line,
          items: line.items.map((item) => ({ ...item, words: 'An item' })),
        }));
        const sent = freezeRevision({ ...revision(), ...input, lines });
        if (!sent.ok) throw new Error(sent.fault.detail);
        const stored = JSON.parse(JSON.stringify(sent.value)) as FrozenRevision;
        const live = priceChoice(input);
        const bare = (price: typeof live): unknown => JSON.parse(JSON.stringify(price)) as unknown;
        expect(bare(priceFrozen(readFrozen(stored), input.chosen))).toEqual(bare(live));
        expect(textOf(stored)).toBe(textOf(sent.value));
      }),
      { numRuns: 500 },
    );
  });

  it('reads a document of the first format, at the prices that it was sent with', () => {
    // As the first format stored it: nothing was taken off anything.
    const bare = (figures: Figures): Figures => {
      const { discountCents, ...others } = figures;
      expect(discountCents).toBe(0);
      return others as Figures;
    };
    const document = frozen();
    const first = {
      ...document,
      format: 1 as const,
      lines: document.lines.map((line) => ({
        ...line,
        alone: bare(line.alone),
        together: bare(line.together),
      })),
      totals: bare(document.totals),
    };
    const read = readFrozen(JSON.parse(JSON.stringify(first)) as FrozenRevision);
    expect(read.totals).toEqual(document.totals);
    expect(read.lines).toEqual(document.lines);
    expect(read.format).toBe(1);
    expect(priceFrozen(read, ['pump', 'belt'])).toMatchObject({ ok: true, value: { totals: read.totals } });
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
