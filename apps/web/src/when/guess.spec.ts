import fc from 'fast-check';
import { guessed, hoursWords } from './guess.js';

describe('work as it is told on the phone', () => {
  it('takes hours, the lift and a name out of what was typed', () => {
    expect(guessed('brakes at the front 2.5 h lift')).toEqual({
      ...{ title: 'Brakes at the front', hundredths: 250, needsLift: true },
    });
    expect(guessed('about 2,5 hours on a lift')).toEqual({
      ...{ title: 'Work as told on the phone', hundredths: 250, needsLift: true },
    });
    expect(guessed('1h noise, on the lift')).toEqual({ title: 'Noise', hundredths: 100, needsLift: true });
    expect(guessed('wheels 0.75h')).toEqual({ title: 'Wheels', hundredths: 75, needsLift: false });
    expect(guessed('weld the lifting eye 3 hrs')?.needsLift).toBe(false);
  });

  it('waits for the hours, and does not take a number for them', () => {
    for (const text of [
      '',
      'brakes',
      'tyres 205 55',
      '2.5',
      'lift',
      '0.01 h',
      '99 h',
      'from 8 to 10 harbour',
    ])
      expect(guessed(text)).toBeNull();
  });

  it('never loses the hours, whatever stands around them', () => {
    const word = fc.stringMatching(/^[a-z]{3,8}$/).filter((one) => !['lift', 'hours', 'about'].includes(one));
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 8000 }),
        fc.array(word, { maxLength: 3 }),
        fc.array(word, { maxLength: 3 }),
        fc.boolean(),
        (hundredths, before, behind, isOnLift) => {
          const text = [...before, hoursWords(hundredths), ...(isOnLift ? ['lift'] : []), ...behind].join(
            ' ',
          );
          const found = guessed(text);
          expect(found).toMatchObject({ hundredths, needsLift: isOnLift });
          const rest = [...before, ...behind].join(' ');
          expect(found?.title.toLowerCase()).toBe(rest === '' ? 'work as told on the phone' : rest);
        },
      ),
    );
  });
});
