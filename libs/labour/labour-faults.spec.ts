import { bookHundredths, type BookHundredths } from '#libs/kernel';
import { alone } from './alone.js';
import { chooseOperations } from './choose-operations.js';
import type { LabourOperation } from './labour-operation.js';
import { marginal } from './marginal.js';
import { shares } from './shares.js';
import { together } from './together.js';

const step = (name: string, hundredths: number, position = 'left') => ({
  step: name,
  position,
  hundredths: bookHundredths(hundredths),
});
const faultCode = (result: { ok: boolean; fault?: { code: string } }) => result.fault?.code;
const wheel: LabourOperation = { id: 'wheel', steps: [step('wheel off', 30)] };

describe('operations that cannot be counted', () => {
  it('a step listed twice at one position counts once, at two positions twice', () => {
    const twice = {
      id: 'a',
      steps: [step('wheel off', 30), step('wheel off', 30), step('wheel off', 30, 'right')],
    };
    expect(alone(twice)).toEqual({ ok: true, value: 60 });
  });

  it('names that only look alike when joined stay apart', () => {
    const tricky = { id: 'a', steps: [step('a","b', 1, 'c'), step('a', 2, 'b","c')] };
    expect(alone(tricky)).toEqual({ ok: true, value: 3 });
    const commas = { id: 'a', steps: [step('a,b', 1, 'c'), step('a', 2, 'b,c')] };
    expect(alone(commas)).toEqual({ ok: true, value: 3 });
  });

  it('one step with two figures is refused, within an operation and across them', () => {
    const other = { id: 'other', steps: [step('wheel off', 40)] };
    expect(faultCode(alone({ id: 'a', steps: [...wheel.steps, ...other.steps] }))).toBe('step-hours-differ');
    expect(faultCode(together([wheel, other]))).toBe('step-hours-differ');
    expect(faultCode(shares([wheel, other]))).toBe('step-hours-differ');
    expect(faultCode(marginal(wheel, [other]))).toBe('step-hours-differ');
  });

  it('an id that is listed twice is refused', () => {
    expect(faultCode(together([wheel, wheel]))).toBe('operation-id-twice');
    expect(faultCode(marginal(wheel, [wheel, wheel]))).toBe('operation-id-twice');
  });

  it.each([-1, 0.5, Number.NaN, Number.POSITIVE_INFINITY])('%d hundredths are refused', (hundredths) => {
    const bad = {
      id: 'bad',
      steps: [{ step: 'x', position: 'left', hundredths: hundredths as BookHundredths }],
    };
    expect(faultCode(alone(bad))).toBe('step-hours-invalid');
  });

  it('hours beyond what can be kept are refused', () => {
    const huge = { id: 'huge', steps: [step('x', Number.MAX_SAFE_INTEGER), step('y', 1)] };
    expect(faultCode(alone(huge))).toBe('book-hours-too-large');
    expect(faultCode(shares([huge]))).toBe('book-hours-too-large');
  });
});

describe('chooseOperations', () => {
  const lamp: LabourOperation = { id: 'lamp', steps: [step('lamp', 20)] };

  it('picks each chosen operation once, whatever the order', () => {
    expect(chooseOperations([wheel, lamp], ['lamp', 'wheel', 'lamp'])).toEqual({
      ok: true,
      value: [wheel, lamp],
    });
    expect(chooseOperations([wheel, lamp], [])).toEqual({ ok: true, value: [] });
    expect(together([])).toEqual({ ok: true, value: 0 });
    expect(shares([])).toEqual({ ok: true, value: new Map() });
  });

  it('refuses an id that is not listed, and a catalogue that contradicts itself outside the choice', () => {
    expect(faultCode(chooseOperations([wheel], ['hood']))).toBe('operation-unknown');
    const contradicting = { id: 'other', steps: [step('wheel off', 40)] };
    expect(faultCode(chooseOperations([wheel, contradicting], ['wheel']))).toBe('step-hours-differ');
  });
});
