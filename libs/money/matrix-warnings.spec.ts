import { cents, ppm } from '#libs/kernel';
import { matrixWarnings } from './matrix-warnings.js';

const bands = [
  { fromCents: cents(0), multiplierPpm: ppm(3_000_000) },
  { fromCents: cents(1000), multiplierPpm: ppm(2_200_000) },
  { fromCents: cents(500_000), multiplierPpm: ppm(990_000) },
];

describe('what a shop is told about its price matrix', () => {
  it('names the costs that sell for less than a cheaper part, and by how much', () => {
    const [first, second, third] = matrixWarnings(bands, 'whole-band');
    expect(first).toMatchObject({ code: 'matrix-inverts', fromCents: 1000, inversion: { toCents: 1362 } });
    expect(first?.detail).toBe(
      'A part that costs 10.00 sells for 22.00, 7.97 less than one that costs 9.99 and sells for 29.97. ' +
        'Costs from 10.00 to 13.62 are affected; marginal bands have no such drop.',
    );
    expect([second?.code, second?.fromCents]).toEqual(['matrix-inverts', 500_000]);
    expect([third?.code, third?.fromCents, third?.inversion]).toEqual(['sells-below-cost', 500_000, null]);
  });

  it('is silent about marginal bands that sell above cost', () => {
    expect(matrixWarnings(bands.slice(0, 2), 'marginal')).toEqual([]);
  });
});
