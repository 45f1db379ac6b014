import { FORMATS } from './formats.js';
import { readPatterson, readProjectLibrary } from './project-files.js';
import { readTardiness } from './tardiness-files.js';

/**
 * The first instance of the single-mode set with 30 activities by R. Kolisch and A. Sprecher 1996; the least makespan is
 * 43, as the library's list of optima has it.
 */
const J30 = `
32 4
12 13 4 12
0 0 0 0 0 3 2 3 4
8 4 0 0 0 3 6 11 15
4 10 0 0 0 3 7 8 13
6 0 0 0 3 3 5 9 10
3 3 0 0 0 1 20
8 0 0 0 8 1 30
5 4 0 0 0 1 27
9 0 1 0 0 3 12 19 27
2 6 0 0 0 1 14
7 0 0 0 1 2 16 25
9 0 5 0 0 2 20 26
2 0 7 0 0 1 14
6 4 0 0 0 2 17 18
3 0 8 0 0 1 17
9 3 0 0 0 1 25
10 0 0 0 5 2 21 22
6 0 0 0 8 1 22
5 0 0 0 7 2 20 22
3 0 1 0 0 2 24 29
7 0 10 0 0 2 23 25
2 0 0 0 6 1 28
7 2 0 0 0 1 23
2 3 0 0 0 1 24
3 0 9 0 0 1 30
3 4 0 0 0 1 30
7 0 0 4 0 1 31
8 0 0 0 7 1 28
3 0 8 0 0 1 31
7 0 7 0 0 1 32
2 0 7 0 0 1 32
2 0 0 2 0 1 32
0 0 0 0 0 0
`;

/** Two activities between a start and an end, written as the library writes them. */
const library = (nonrenewable: number, units: string, first: string): string => `
************************************************************************
file with basedata            : by hand
************************************************************************
projects                      :  1
jobs (incl. supersource/sink ):  4
RESOURCES
  - renewable                 :  1   R
  - nonrenewable              :  ${nonrenewable}   N
  - doubly constrained        :  0   D
************************************************************************
PROJECT INFORMATION:
pronr.  #jobs rel.date duedate tardcost  MPM-Time
    1      2      0        9        1        5
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        ${first.split('\n').length}          1           4
   3        1          1           4
   4        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1${nonrenewable > 0 ? '  N 1' : ''}
------------------------------------------------------------------------
  1      1     0       0${nonrenewable > 0 ? '   0' : ''}
${first}
  3      1     2       2${nonrenewable > 0 ? '   1' : ''}
  4      1     0       0${nonrenewable > 0 ? '   0' : ''}
************************************************************************
RESOURCEAVAILABILITIES:
  R 1${nonrenewable > 0 ? '  N 1' : ''}
  ${units}
************************************************************************
`;

const SINGLE = library(0, ' 3', '  2      1     3       2');
const MULTI = library(1, ' 3   5', '  2      1     1       2   5\n         2     4       1   4');

/** Two instances of five jobs: durations, weights, due dates, with row ends anywhere. */
const TARDY = '20 30 5 7 80\n1 2 3\n10 4\n0 60 8 50 90\n11 12 13 14 15 1 1\n1 1 1 200 200 200 200 200\n';

const namesOf = (text: string): string[] =>
  FORMATS.filter((format) => format.read(text) !== null).map(({ name }) => name);

const solved = (text: string, bySeconds = 1): unknown[] => {
  const [format] = FORMATS.filter(({ read }) => read(text) !== null);
  return (format?.read(text) ?? []).map(({ solve }) => {
    let looks = 0;
    return solve({ timeLimitMs: 1000 * bySeconds, now: () => looks++, seed: 1 });
  });
};

describe('project files', () => {
  it('are told apart by what is in them', () => {
    expect(namesOf(J30)).toEqual(['project, Patterson']);
    expect(namesOf(SINGLE)).toEqual(['project, single-mode']);
    expect(namesOf(MULTI)).toEqual(['project, multi-mode']);
    expect(namesOf(TARDY)).toEqual(['weighted tardiness']);
  });

  it('in the layout of Patterson are read number by number', () => {
    const problem = readPatterson(J30);
    expect(problem?.activities.length).toBe(32);
    expect(problem?.renewable).toEqual([12, 13, 4, 12]);
    expect(problem?.activities[1]).toEqual({
      modes: [{ duration: 8, holds: [4, 0, 0, 0], consumes: [] }],
      successors: [5, 10, 14],
    });
  });

  it('with a number too few or too many, or a successor from nowhere, are in no layout', () => {
    expect(readPatterson(J30.replace(/\d+\s*$/, ''))).toBeNull();
    expect(readPatterson(`${J30} 0`)).toBeNull();
    expect(readPatterson('2 1\n3\n1 1 1 2\n0 0 0')).not.toBeNull();
    expect(readPatterson('2 1\n3\n1 1 1 3\n0 0 0')).toBeNull();
    expect(readPatterson('')).toBeNull();
  });

  it('of the library are read with their modes', () => {
    const nothing = { duration: 0, holds: [0], consumes: [0] };
    expect(readProjectLibrary(MULTI)).toEqual({
      renewable: [3],
      nonrenewable: [5],
      activities: [
        { modes: [nothing], successors: [1, 2] },
        {
          modes: [
            { duration: 1, holds: [2], consumes: [5] },
            { duration: 4, holds: [1], consumes: [4] },
          ],
          successors: [3],
        },
        { modes: [{ duration: 2, holds: [2], consumes: [1] }], successors: [3] },
        { modes: [nothing], successors: [] },
      ],
    });
    expect(readProjectLibrary(SINGLE)?.activities[1]).toEqual({
      modes: [{ duration: 3, holds: [2], consumes: [] }],
      successors: [3],
    });
  });

  it('of the library that contradict themselves are in no layout', () => {
    expect(readProjectLibrary(MULTI.replace('         2     4 ', '  9      2     4 '))).toBeNull();
    expect(readProjectLibrary(MULTI.replace('   2        2  ', '   2        3  '))).toBeNull();
    expect(readProjectLibrary(MULTI.replace(' 3   5', ' 3'))).toBeNull();
    expect(
      readProjectLibrary(MULTI.replace('constrained        :  0', 'constrained        :  1')),
    ).toBeNull();
  });

  it('are solved and found without a flaw', () => {
    expect(solved(J30)).toMatchObject([{ objective: 43, bound: 38, flaws: [] }]);
    // By hand: both hold two of three units, so one after the other.
    expect(solved(SINGLE)).toMatchObject([{ objective: 5, flaws: [] }]);
    // By hand: the quick mode would use up six of five.
    expect(solved(MULTI)).toMatchObject([{ objective: 4, bound: 4, flaws: [] }]);
  });

  it('without a plan have no objective, and no bound where that is certain', () => {
    const tooFew = library(1, ' 3   4', '  2      1     1       2   5\n         2     4       1   4');
    expect(solved(tooFew)).toMatchObject([{ objective: Infinity, bound: Infinity, flaws: [] }]);
  });
});

describe('files of weighted tardiness', () => {
  it('are cut where the numbers can be durations and weights', () => {
    expect(readTardiness(TARDY)).toEqual([
      {
        jobs: [
          { duration: 20, weight: 1, due: 0 },
          { duration: 30, weight: 2, due: 60 },
          { duration: 5, weight: 3, due: 8 },
          { duration: 7, weight: 10, due: 50 },
          { duration: 80, weight: 4, due: 90 },
        ],
      },
      { jobs: [11, 12, 13, 14, 15].map((duration) => ({ duration, weight: 1, due: 200 })) },
    ]);
  });

  it('with 125 instances are cut into 125, even where fewer jobs would do', () => {
    const one = '9 '.repeat(30);
    expect(readTardiness(one.repeat(125))?.map(({ jobs }) => jobs.length)).toEqual(
      new Array<number>(125).fill(10),
    );
  });

  it('with anything that is not a whole number are in no layout', () => {
    expect(readTardiness(`${TARDY} x`)).toBeNull();
    expect(readTardiness(`${TARDY} 1`)).toBeNull();
    expect(readTardiness('0 '.repeat(30))).toBeNull();
  });

  it('have one answer for each instance', () => {
    // By hand: 5, 20, 7, 30, 80 end at 5, 25, 32, 62, 142, so 25 + 2 × 2 + 4 × 52; the second is never late.
    expect(solved(TARDY)).toMatchObject([
      { objective: 237, flaws: [] },
      { objective: 0, bound: 0, flaws: [] },
    ]);
    expect(FORMATS.flatMap(({ read }) => read(TARDY) ?? []).map(({ number }) => number)).toEqual([1, 2]);
  });
});

describe('a general solver', () => {
  const bothOf = async (text: string): Promise<readonly [number | undefined, unknown]> => {
    const [instance] = FORMATS.flatMap(({ read }) => read(text) ?? []);
    let looks = 0;
    const ours = instance?.solve({ timeLimitMs: 500, now: () => looks++, seed: 1 });
    return [ours?.objective, await instance?.against?.(20)];
  };

  it.each([
    ['a project with one mode each', SINGLE],
    ['a project with a choice of modes', MULTI],
    ['a project under two resources', '5 2\n3 2\n0 0 0 3 2 3 4\n3 2 1 1 5\n2 2 1 1 5\n4 1 1 1 5\n1 3 0 0\n'],
    ['jobs of one machine', '20 30 5 7 80 1 2 3 10 4 0 60 8 50 90'],
  ])('proves for %s the same optimum as ours', async (_, text) => {
    const [objective, theirs] = await bothOf(text);
    expect(theirs).toMatchObject({ objective, proven: true });
  });

  it('takes as long for a chain of a hundred as the sum of it', async () => {
    const chain = Array.from({ length: 100 }, (_, at) => `9 1 ${at < 99 ? `1 ${at + 2}` : '0'}`).join('\n');
    const [objective, theirs] = await bothOf(`100 1\n1\n${chain}\n`);
    expect(objective).toBe(900);
    expect(theirs).toMatchObject({ objective: 900, proven: true });
  });
});
