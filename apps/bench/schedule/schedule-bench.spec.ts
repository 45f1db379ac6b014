import { bestKnownOf } from './best-known.js';
import { FORMATS } from './formats.js';
import { readFlexibleJobShop, readJobShop } from './machine-files.js';
import { lineOf, summaryOf } from './report.js';
import { readArguments } from './arguments.js';

/** FT06 of H. Fisher and G. L. Thompson 1963, with the remarks that some collections put in front. */
const FT06 = ` instance ft06
 ++++++++++++++++++++++++
 6 6
 2  1  0  3  1  6  3  7  5  3  4  6
 1  8  2  5  4 10  5 10  0 10  3  4
 2  5  3  4  5  8  0  9  1  1  4  7
 1  5  0  5  2  5  3  3  4  8  5  9
 2  9  1  3  4  5  5  4  0  3  3  1
 1  3  3  3  5  9  0 10  4  4  2  1
`;

/** Two jobs: one operation with a choice and one without; machines counted from 1. */
const FLEXIBLE = `2 3 1.5
2 2 1 4 3 5 1 2 6
1 1 3 2
`;

const namesOf = (text: string): string[] =>
  FORMATS.filter((format) => format.read(text) !== null).map(({ name }) => name);

describe('instance files', () => {
  it('are told apart by what is in them', () => {
    expect(namesOf(FT06)).toEqual(['job shop']);
    expect(namesOf(FLEXIBLE)).toEqual(['flexible job shop']);
    expect(namesOf('')).toEqual([]);
    expect(namesOf('2 2\n0 1 1 1\n0 1 1\n')).toEqual([]);
    expect(namesOf('some words\n')).toEqual([]);
  });

  it('of a job shop are read number by number', () => {
    const problem = readJobShop(FT06);
    expect(problem?.machines).toBe(6);
    expect(problem?.jobs.length).toBe(6);
    expect(problem?.jobs[1]?.slice(0, 2)).toEqual([
      [{ machine: 1, duration: 8 }],
      [{ machine: 2, duration: 5 }],
    ]);
  });

  it('of a flexible job shop are read number by number, machines counted from 0 or from 1', () => {
    const jobs = [
      [
        [
          { machine: 0, duration: 4 },
          { machine: 2, duration: 5 },
        ],
        [{ machine: 1, duration: 6 }],
      ],
      [[{ machine: 2, duration: 2 }]],
    ];
    expect(readFlexibleJobShop(FLEXIBLE)).toEqual({ machines: 3, jobs });
    expect(readFlexibleJobShop('2 3\n2 2 0 4 2 5 1 1 6\n1 1 2 2\n')).toEqual({ machines: 3, jobs });
  });

  it('with a machine too many are in no layout', () => {
    expect(readFlexibleJobShop('1 2\n1 1 3 4\n')).toBeNull();
    expect(readFlexibleJobShop('2 2\n1 1 0 4\n1 1 2 4\n')).toBeNull();
  });

  it('of FT06 are solved to the optimum and found without a flaw', () => {
    const [instance] = FORMATS[0]?.read(FT06) ?? [];
    let looks = 0;
    const answer = instance?.solve({ timeLimitMs: 500, now: () => looks++, seed: 1 });
    expect(answer).toMatchObject({ objective: 55, bound: 52, flaws: [] });
  });
});

describe('a general solver', () => {
  it('proves the same optimum as ours where each operation has one machine', async () => {
    const [instance] = FORMATS[0]?.read('3 3\n0 3 1 2 2 2\n0 2 2 1 1 4\n1 4 2 3 0 1\n') ?? [];
    const ours = instance?.solve({ timeLimitMs: 50, now: () => performance.now(), seed: 1 });
    expect(await instance?.against?.(20)).toMatchObject({ objective: ours?.objective, proven: true });
  });

  it('finds the optimum where operations have a choice', async () => {
    // By hand: both first operations at once, the long second one on the machine that is free.
    const problem = '2 2\n2 1 0 3 2 0 4 1 2\n2 1 1 4 1 0 1\n';
    const [instance] = FORMATS[1]?.read(problem) ?? [];
    expect(await instance?.against?.(20)).toMatchObject({ objective: 6, proven: true });
    expect(instance?.solve({ timeLimitMs: 50, now: () => performance.now(), seed: 1 })).toMatchObject({
      objective: 6,
    });
  });
});

describe('best-known values', () => {
  const values = {
    about: 'words',
    jsp: { ft06: { lower: 55, upper: 55 }, la03: { upper: 597 } },
    fjsp: { 'hurink/edata/la03': { upper: 550 }, 'hurink/rdata/la03': { upper: 478 } },
    wt: { wt40: { values: [913, 1225] } },
  };

  it('are found by section and the end of the path', () => {
    expect(bestKnownOf(values, 'jsp', '/any/jsp/ft06.txt', null)).toBe(55);
    expect(bestKnownOf(values, 'jsp', 'la03.txt', null)).toBe(597);
    expect(bestKnownOf(values, 'fjsp', '/any/fjsp/hurink/rdata/la03.txt', null)).toBe(478);
    expect(bestKnownOf(values, 'fjsp', '/elsewhere/edata/la03.fjs', null)).toBe(550);
    expect(bestKnownOf(values, 'wt', '/any/wt/wt40.txt', 2)).toBe(1225);
    expect(bestKnownOf({ ft06: 55 }, 'jsp', 'ft06', null)).toBe(55);
  });

  it('are null when there is none, or more than one could be meant', () => {
    expect(bestKnownOf(values, 'fjsp', 'la03.txt', null)).toBeNull();
    expect(bestKnownOf(values, 'jsp', 'ft20.txt', null)).toBeNull();
    expect(bestKnownOf(values, 'wt', 'wt40.txt', 3)).toBeNull();
    expect(bestKnownOf({}, 'jsp', 'ft06.txt', null)).toBeNull();
  });
});

describe('what is printed', () => {
  const answer = { objective: 110, bound: 100, firstMs: 1, flaws: [] };

  it('is the gap in per cent of the best known', () => {
    expect(lineOf('a', null, answer, 100, 5)).toEqual({
      file: 'a',
      objective: 110,
      bestKnown: 100,
      gapPercent: 10,
      bound: 100,
      ms: 5,
      firstMs: 1,
    });
    expect(lineOf('a', 3, answer, null, 5)).toMatchObject({ file: 'a#3', bestKnown: null, gapPercent: null });
    expect(lineOf('a', 1, { ...answer, objective: 0 }, 0, 5).gapPercent).toBe(0);
    expect(lineOf('a', 1, answer, 0, 5).gapPercent).toBeNull();
  });

  it('counts who was better, no plan being the worst', () => {
    const line = lineOf('a', null, answer, null, 5);
    const against = [100, 110, 120, null].map((objective) => ({
      ...line,
      against: { objective, proven: false, ms: 1 },
    }));
    expect(summaryOf(against).against).toEqual({ better: 2, equal: 1, worse: 1 });
    expect(summaryOf([line])).not.toHaveProperty('against');
  });

  it('is summed up, flaws included', () => {
    const lines = [
      lineOf('a', null, answer, 100, 5),
      lineOf('b', null, { ...answer, objective: 100 }, 100, 5),
      lineOf('c', null, { ...answer, flaws: ['job-order'] }, null, 5),
    ];
    expect(summaryOf(lines)).toEqual({
      summary: true,
      instances: 3,
      withBestKnown: 2,
      atBestKnown: 1,
      proven: 1,
      objectiveSum: 320,
      bestKnownSum: 200,
      meanGapPercent: 5,
      worstGapPercent: 10,
      violations: 1,
    });
  });
});

describe('the command line', () => {
  it('has ten seconds and the seed 1 unless told otherwise', () => {
    expect(readArguments(['a.txt'])).toEqual({
      seconds: 10,
      seed: 1,
      bestKnown: null,
      against: false,
      files: ['a.txt'],
    });
    expect(
      readArguments(['--seconds', '0.5', '--seed', '7', '--best-known', 'b.json', '--against', 'a', 'c']),
    ).toEqual({
      seconds: 0.5,
      seed: 7,
      bestKnown: 'b.json',
      against: true,
      files: ['a', 'c'],
    });
  });

  it.each([[[]], [['--seconds', '0', 'a']], [['--seed', 'x', 'a']], [['--speed', '9', 'a']]])(
    'refuses %j',
    (given) => {
      expect(() => readArguments(given)).toThrow();
    },
  );
});
