import { seconds, type BookHundredths } from '#libs/kernel';
import { minutesP80 } from '#libs/plan';
import { expectedRemainingMinutes } from '#libs/schedule';
import type { AskedWork } from './asked-visit.js';

/**
 * What was guessed on the phone strays this many times as far as hours of the catalogue, whose spread is the one that the
 * shop expects between its cars (common sense, no source).
 */
const GUESS_STRAYS = 3;
const MOST_PPM = 1_000_000;

/** How long a piece of work takes, as likely less as more, and what is kept in four of five cases; whole minutes. */
export function minutesOf(
  { hundredths, operationId }: Pick<AskedWork, 'hundredths' | 'operationId'>,
  commonSpreadPpm: number,
): { minutes: number; minutesP80: number } {
  const minutes = minutesOfHours(hundredths);
  const spread = operationId === null ? Math.min(MOST_PPM, GUESS_STRAYS * commonSpreadPpm) : commonSpreadPpm;
  return { minutes, minutesP80: minutesP80(minutes, spread) };
}

const minutesOfHours = (hundredths: BookHundredths): number =>
  expectedRemainingMinutes(hundredths, seconds(0));
