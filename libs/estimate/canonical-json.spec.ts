import fc from 'fast-check';
import { canonicalJson } from './canonical-json.js';
import type { Json } from './canonical-json.js';

const aJson = fc.letrec<{ json: Json }>((tie) => ({
  json: fc.oneof(
    { depthSize: 'small' },
    fc.constant(null),
    fc.boolean(),
    fc.maxSafeInteger(),
    fc.string({ unit: 'grapheme' }),
    fc.array(tie('json'), { maxLength: 4 }),
    fc.dictionary(fc.string({ unit: 'grapheme' }), tie('json'), { maxKeys: 5 }),
  ),
})).json;

/** The same value with the keys of every object in another order. */
function turned(value: Json): Json {
  if (Array.isArray(value)) return value.map(turned);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, turned(inner)]),
  );
}

describe('the one text of a document', () => {
  it('sorts keys by UTF-16 code units', () => {
    // The property-sorting example of RFC 8785 section 3.2.3: the values come out in the order that their texts name.
    const scrambled = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    expect(Object.values(JSON.parse(canonicalJson(scrambled)) as typeof scrambled).sort()).toEqual(
      Object.values(scrambled).sort(),
    );
    const text = canonicalJson(scrambled);
    const order = ['Carriage Return', 'One', 'Control', 'Latin Small', 'Euro', 'Emoji', 'Hebrew'];
    const places = order.map((word) => text.indexOf(word));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places.every((place) => place > 0)).toBe(true);
  });

  it('has no spaces and writes numbers plainly', () => {
    expect(canonicalJson({ b: [1, -0, { d: null, c: true }], a: 'x "y"\n' })).toBe(
      '{"a":"x \\"y\\"\\n","b":[1,0,{"c":true,"d":null}]}',
    );
  });

  it('is the same in whatever order a database keeps the keys, and reads back as the value', () => {
    fc.assert(
      fc.property(aJson, (value) => {
        const text = canonicalJson(value);
        expect(canonicalJson(turned(value))).toBe(text);
        expect(canonicalJson(JSON.parse(text) as Json)).toBe(text);
      }),
      { numRuns: 1000 },
    );
  });

  it('refuses fractions and halves of characters', () => {
    for (const bad of [0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53]) {
      expect(() => canonicalJson({ bad })).toThrow(RangeError);
    }
    expect(() => canonicalJson('\ud83d')).toThrow(RangeError);
    expect(() => canonicalJson({ '\ude00': 1 })).toThrow(RangeError);
  });
});
