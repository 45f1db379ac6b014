import type { PlanChange, RunPlace, RunSummary } from '../api/plan-types.js';
import { clockTime, dayOf, dayWords, inShopTime, shiftDay } from '../board/zone-time.js';

/** What the words of a page depend on: the shop's zone and its present day. */
export interface Wall {
  readonly zone: string;
  readonly today: string;
}

export const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

/** `2 hours 40 minutes`, `1 day 3 hours`; a day is 24 hours. */
export function span(minutes: number): string {
  const days = Math.floor(minutes / 1440);
  const hours = Math.floor((minutes % 1440) / 60);
  const rest = minutes % 60;
  const parts = [
    ...(days > 0 ? [count(days, 'day')] : []),
    ...(hours > 0 ? [count(hours, 'hour')] : []),
    ...(days === 0 && (rest > 0 || hours === 0) ? [count(rest, 'minute')] : []),
  ];
  return parts.join(' ');
}

/** `today`, `tomorrow`, `yesterday`, or `Friday 14 March`. */
export function dayName(instant: string, { zone, today }: Wall): string {
  const day = dayOf(Date.parse(instant), zone);
  if (day === today) return 'today';
  if (day === shiftDay(today, 1)) return 'tomorrow';
  if (day === shiftDay(today, -1)) return 'yesterday';
  return dayWords(day, today);
}

export const timeOf = (instant: string, { zone }: Wall): string => clockTime(Date.parse(instant), zone);

/** `today 14:10`, `Friday 14 March, 08:00`. */
export function moment(instant: string, wall: Wall): string {
  const day = dayName(instant, wall);
  return `${day}${day.includes(' ') ? ',' : ''} ${timeOf(instant, wall)}`;
}

/** A sentence of the server, with times as people of the shop say them. */
export const said = (words: string, { zone, today }: Wall): string => inShopTime(words, zone, today);

/** A reason with its time in it: the server's sentences end in "then" where the time stands beside them. */
export function reasonWords(words: string, until: string | null, wall: Wall): string {
  const sentence = said(words, wall);
  if (until === null) return sentence;
  const time = moment(until, wall);
  return /\bthen\.$/.test(sentence) ? sentence.replace(/then\.$/, `${time}.`) : `${sentence} Until ${time}.`;
}

export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** `2 promises no longer hold`. */
export const lateWords = (late: number): string =>
  late === 0 ? 'Every promise holds' : `${count(late, 'promise')} no longer ${late === 1 ? 'holds' : 'hold'}`;

/** What a change comes to, in a few words. */
export function changeWords(change: PlanChange): string {
  if (change.kind === 'new') return 'Gets a place';
  if (change.kind === 'taken-out') return 'Loses its place';
  const { minutesLater: later } = change;
  const parts = [
    ...(later > 0 ? [`${span(later)} later`] : []),
    ...(later < 0 ? [`${span(-later)} sooner`] : []),
    ...(change.bayChanged ? ['another bay'] : []),
    ...(change.technicianChanged ? ['another technician'] : []),
  ];
  return capital(parts.length === 0 ? 'takes another length of time' : parts.join(', '));
}

/** `today 14:10 to 16:00`, with the day again where the work ends on another one. */
export function placeTimes({ startsAt, endsAt }: Pick<RunPlace, 'startsAt' | 'endsAt'>, wall: Wall): string {
  const sameDay = dayName(startsAt, wall) === dayName(endsAt, wall);
  return `${capital(moment(startsAt, wall))} to ${sameDay ? timeOf(endsAt, wall) : moment(endsAt, wall)}`;
}

/** What came of a run, in a sentence without its full stop. */
export function outcomeWords(run: RunSummary): string {
  switch (run.outcome) {
    case null:
      return 'Under way';
    case 'unchanged':
      return run.improve ? 'Nothing better was found' : 'Nothing had to change';
    case 'applied':
      return `The plan changed: ${count(run.changeCount, 'work order')} moved`;
    case 'proposed':
      return `${count(run.changeCount, 'move')} proposed: ${answerWords(run)}`;
    case 'outdated':
      return 'Something happened meanwhile, and another look followed';
    case 'failed':
      return 'It came to no end';
  }
}

function answerWords({ decision, decidedBy }: RunSummary): string {
  const by = decidedBy ? ` by ${decidedBy.displayName}` : '';
  if (decision === 'accepted') return `accepted${by}`;
  if (decision === 'rejected') return `left as it was${by}`;
  if (decision === 'superseded') return 'a later one took its place';
  return 'waits for an answer';
}

const TOLD = 2;

/** What a run was for, in a sentence: what happened, or who asked. */
export function forWhat({ causes, askedBy, improve }: RunSummary, wall: Wall): string {
  if (improve)
    return askedBy ? `${askedBy.displayName} asked for a better plan.` : 'A longer look for a better plan.';
  // The latest say most; a busy minute brings many that read alike.
  const words = [...new Set(causes.map((cause) => said(cause.words, wall)))].reverse();
  const more = words.length > TOLD ? [`And ${count(words.length - TOLD, 'thing')} more.`] : [];
  if (words.length > 0) return [...words.slice(0, TOLD), ...more].join(' ');
  return askedBy ? `${askedBy.displayName} asked for it.` : 'A look by itself.';
}
