import type { WhatIfChange } from '../api/what-if-types.js';
import type { Floor, Thing } from './read-floor.js';

export type Kind = WhatIfChange['kind'];

/** A change with its words, before it is asked. */
export interface Picked {
  readonly change: WhatIfChange;
  readonly words: string;
}

export const KINDS: readonly (readonly [Kind, string])[] = [
  ['bay', 'One more bay or lift like …'],
  ['technician', 'One more technician like …'],
  ['day-open', 'Open on one more day'],
  ['tool', 'One more special tool'],
  ['bay-away', 'Without a bay or lift'],
  ['technician-away', 'Without a technician'],
];

export const DAYS: readonly (readonly [string, string])[] = [
  ['6', 'Saturday'],
  ['7', 'Sunday'],
  ['1', 'Monday'],
  ['2', 'Tuesday'],
  ['3', 'Wednesday'],
  ['4', 'Thursday'],
  ['5', 'Friday'],
];

export function thingsOf(kind: Kind, { bays, technicians, tools }: Floor): readonly Thing[] {
  if (kind === 'bay' || kind === 'bay-away') return bays;
  if (kind === 'tool') return tools;
  return kind === 'day-open' ? [] : technicians;
}

/** What is typed into the two time fields, HH:MM. */
export const minuteOf = (time: string): number => {
  const [hours = NaN, minutes = NaN] = time.split(':').map(Number);
  return hours * 60 + minutes;
};

const WORDS: Readonly<Record<Exclude<Kind, 'day-open'>, string>> = {
  bay: 'One more bay like',
  technician: 'One more technician like',
  tool: 'One more',
  'bay-away': 'Without',
  'technician-away': 'Without',
};

export const pickThing = (kind: Exclude<Kind, 'day-open'>, { id, name }: Thing): Picked => ({
  change: { kind, id },
  words: `${WORDS[kind]} ${name}`,
});

export const pickDay = (weekday: string, from: string, to: string): Picked => ({
  change: { kind: 'day-open', weekday: Number(weekday), fromMinute: minuteOf(from), toMinute: minuteOf(to) },
  words: `Open on ${DAYS.find(([day]) => day === weekday)?.[1] ?? ''} ${from} to ${to}`,
});
