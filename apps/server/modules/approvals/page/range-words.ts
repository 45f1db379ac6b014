/** Shares of a whole that people can picture, the largest first; from how many hundredths on each is said. */
const PARTS: readonly (readonly [hundredths: number, words: string])[] = [
  [85, 'nearly all of it'],
  [62, 'about two thirds'],
  [42, 'about half'],
  [29, 'about a third'],
  [22, 'about a quarter'],
  [15, 'about a fifth'],
  [8, 'about a tenth'],
];

/** What the owner reads about what it may come to. */
export const RANGE_WORDS = {
  heading: 'What it may come to',
  lead: 'If you say yes to all of it, this is what we expect in the end, tax included:',
  likely: 'In half of all cases it stays below',
  eight: 'In 8 cases out of 10 it stays below',
  most: 'It could come to',
  causes: 'What can move it most:',
  causesOne: (words: string, part: string) => `${words} (${part})`,
  drawn: (least: string, most: string) =>
    `The bar runs from ${least} to ${most}: the taller a stretch, the more cases end in it.`,
  notSeen: (words: string) => `${words}, which we could not see`,
  ifHappens: (words: string) => `If this happens: ${words}`,
  holds:
    'The price beside each line is what you agree to when you say yes. Anything above it, we ask you first, unless you agree to it in advance.',
  agreed: (money: string) => `The ${money} that you have agreed to already is in it and does not move.`,
  value: 'The car, as the shop has entered its worth',
  all: 'All of this together',
  ratio: 'All of this, as a share of that worth',
  percent: (part: string) => `${part}\u00a0%`,
  part: (hundredths: number): string | null => PARTS.find(([from]) => hundredths >= from)?.[1] ?? null,
} as const;
