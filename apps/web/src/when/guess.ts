/** What somebody guesses on the phone. */
export interface Guess {
  readonly title: string;
  /** Hundredths of an hour. */
  readonly hundredths: number;
  readonly needsLift: boolean;
}

const HOURS = /(?:^|\s)(?:about |abt |~ ?)?(\d{1,2}(?:[.,]\d{1,2})?)\s*(?:h|hr|hrs|hours?)(?=$|[\s,;.])/i;
const LIFT = /(?:^|\s)(?:on (?:a |the )?)?lift(?=$|[\s,;.])/i;
const LEAST = 5;
const MOST = 8000;

/**
 * "brakes 2.5 h lift" as work: the hours, whether it is done on a lift, and what is left as its name. Null while no hours are
 * said, or hours that no work takes (at least 0.05, at most 80).
 */
export function guessed(text: string): Guess | null {
  const hours = HOURS.exec(text);
  if (!hours?.[1]) return null;
  const hundredths = Math.round(Number(hours[1].replace(',', '.')) * 100);
  if (hundredths < LEAST || hundredths > MOST) return null;
  const rest = text.replace(HOURS, ' ').replace(LIFT, ' ').replace(/\s+/g, ' ').trim();
  const title = rest.replace(/^[,;.]+|[,;.]+$/g, '').trim();
  return {
    title: title === '' ? 'Work as told on the phone' : (title[0] ?? '').toUpperCase() + title.slice(1, 120),
    hundredths,
    needsLift: LIFT.test(text),
  };
}

/** `2.5 h`, `0.75 h`, `3 h` */
export const hoursWords = (hundredths: number): string => `${hundredths / 100} h`;
