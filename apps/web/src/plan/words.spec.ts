import type { PlanChange, RunSummary } from '../api/plan-types.js';
import {
  type Wall,
  changeWords,
  forWhat,
  lateWords,
  moment,
  placeTimes,
  reasonWords,
  span,
} from './words.js';

const WALL: Wall = { zone: 'Europe/Vienna', today: '2031-03-12' };

describe('the words of the plan', () => {
  it.each([
    [0, '0 minutes'],
    [1, '1 minute'],
    [55, '55 minutes'],
    [60, '1 hour'],
    [160, '2 hours 40 minutes'],
    [1440, '1 day'],
    [1441, '1 day'],
    [2 * 1440 + 61, '2 days 1 hour'],
  ])('says %i minutes as %s', (minutes, words) => expect(span(minutes)).toBe(words));

  it('names the days next to today, and others by their name', () => {
    expect(moment('2031-03-12T09:00:00Z', WALL)).toBe('today 10:00');
    expect(moment('2031-03-13T07:00:00Z', WALL)).toBe('tomorrow 08:00');
    expect(moment('2031-03-11T23:30:00Z', WALL)).toBe('today 00:30');
    expect(moment('2031-03-17T07:00:00Z', WALL)).toBe('Monday 17 March, 08:00');
  });

  it('names the end’s day only where it is another one', () => {
    const startsAt = '2031-03-12T15:00:00Z';
    expect(placeTimes({ startsAt, endsAt: '2031-03-12T16:00:00Z' }, WALL)).toBe('Today 16:00 to 17:00');
    expect(placeTimes({ startsAt, endsAt: '2031-03-13T07:00:00Z' }, WALL)).toBe(
      'Today 16:00 to tomorrow 08:00',
    );
  });

  it('counts promises', () => {
    expect([0, 1, 2].map(lateWords)).toEqual([
      'Every promise holds',
      '1 promise no longer holds',
      '2 promises no longer hold',
    ]);
  });

  it('puts the time of a reason where the sentence has its "then", else behind it', () => {
    const until = '2031-03-13T07:00:00Z';
    expect(reasonWords('Its parts come then.', until, WALL)).toBe('Its parts come tomorrow 08:00.');
    expect(reasonWords('It keeps its time.', until, WALL)).toBe('It keeps its time. Until tomorrow 08:00.');
    expect(reasonWords('It was started.', null, WALL)).toBe('It was started.');
  });

  it('says what a change comes to', () => {
    const change = {
      kind: 'changed',
      minutesLater: 0,
      bayChanged: false,
      technicianChanged: false,
    } as PlanChange;
    expect(changeWords({ ...change, minutesLater: -90, bayChanged: true })).toBe(
      '1 hour 30 minutes sooner, another bay',
    );
    expect(changeWords({ ...change, technicianChanged: true })).toBe('Another technician');
    expect(changeWords(change)).toBe('Takes another length of time');
    expect(changeWords({ ...change, kind: 'new' })).toBe('Gets a place');
  });

  it('tells the last things that a run was for, each once, and how many more there were', () => {
    const causes = ['a.', 'a.', 'b.', 'c.', 'd.'].map((words) => ({
      ...{ kind: 'bay', at: '', subjects: {} },
      words,
    }));
    const run = { causes, improve: false, askedBy: null } as unknown as RunSummary;
    expect(forWhat(run, WALL)).toBe('d. c. And 2 things more.');
    expect(forWhat({ ...run, causes: [] }, WALL)).toBe('A look by itself.');
    expect(forWhat({ ...run, improve: true }, WALL)).toBe('A longer look for a better plan.');
  });
});
