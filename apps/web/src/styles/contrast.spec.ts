import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';

/**
 * Every pair of colours that is written or drawn on another, in both lights, by the contrast ratio of WCAG 2.2
 * (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio; relative luminance by the same document). Text needs 4.5, the
 * outlines of controls 3.
 */
const css = readFileSync(resolve('apps/web/src/styles/tokens.css'), 'utf8');
const colours = (part: string): Record<string, string> =>
  Object.fromEntries(
    [...part.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/gi)].map((match) => [match[1] ?? '', match[2] ?? '']),
  );
const [dayPart = '', dimPart = ''] = css.split("[data-light='dim']");
const day: Record<string, string> = { ...colours(dayPart) };
day.bar = day.ink ?? '';
day['on-bar'] = day['on-ink'] ?? '';
const dim: Record<string, string> = { ...day, ...colours(dimPart) };

function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((from) => parseInt(hex.slice(from, from + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const papers = ['sheet', 'stock-desk', 'stock-bay', 'stock-owner', 'stock-office'];
const text = ['ink', 'ink-2', 'ink-3', 'carbon'].flatMap((ink) =>
  papers.map((paper) => [ink, paper, 4.5] as const),
);
const outlines = papers.map((paper) => ['edge', paper, 3] as const);
const others = [
  ['on-ink', 'ink', 4.5],
  ['on-bar', 'bar', 4.5],
  ['on-pen', 'pen', 4.5],
  ['carbon', 'carbon-wash', 4.5],
] as const;

describe('ink on paper', () => {
  it('knows the ratio that the standard gives for its own extremes', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
    // A pair that is widely quoted as the lightest grey to pass on white: 4.54 (from memory).
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it.each([
    ['day', day],
    ['dim', dim],
  ])('can be read by %s', (_light, tokens) => {
    const poor = [...text, ...outlines, ...others].filter(
      ([a, b, limit]) => !(contrast(tokens[a] ?? '', tokens[b] ?? '') >= limit),
    );
    expect(poor).toEqual([]);
    expect(Object.keys(tokens)).toEqual(expect.arrayContaining(papers));
  });
});
