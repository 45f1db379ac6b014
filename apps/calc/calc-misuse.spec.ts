import { COMPUTATIONS } from './computations/registry.js';
import { runCalc, tellShape } from './run-calc.js';

describe('the command called wrongly ends with 2 and one line', () => {
  it.each(['', '{}', '7', 'null', '[1', '[1] [2]', 'minutes=7'])('for standard input %j', (text) => {
    const outcome = runCalc('hours', text);
    expect(outcome).toMatchObject({ exitCode: 2, stdout: '' });
    expect(outcome.stderr).toMatch(
      /^Standard input must be one JSON array whose elements are \{minutes\}\n$/,
    );
  });

  it('for a name that there is not, listing those that there are', () => {
    for (const name of [undefined, 'VIN', 'toString', 'line\nbreak']) {
      const outcome = runCalc(name, '[]');
      expect(outcome).toMatchObject({ exitCode: 2, stdout: '' });
      expect(outcome.stderr).toMatch(
        /^[^\n]*vin, labour, allocate, tax, invoice-tax, punch, hours, wilson, budget, ladder, supplies, margin, matrix, range, schedule, check-schedule, what-if\.\n$/,
      );
    }
  });

  it('an empty list is a list, and a byte order mark is no mistake', () => {
    expect(runCalc('hours', '\ufeff []\n')).toEqual({ exitCode: 0, stdout: '[]\n', stderr: '' });
  });
});

it('tells the shape of every element and of its answer', () => {
  for (const { name } of COMPUTATIONS) {
    expect(tellShape(name)).toMatchObject({ exitCode: 0, stderr: '' });
    expect(tellShape(name).stdout).toMatch(/^[^\n]+ -> [^\n]+\n$/);
  }
  expect(tellShape('VIN').exitCode).toBe(2);
});
