import { ANSWERS, type Answer } from '#libs/approval';
import { isInstant } from '../../../platform/http/is-instant.js';

/** What the owner's form sent, as far as it makes sense; nonsense is as if it had not been sent. */
export interface SentForm {
  readonly step: 'review' | 'change' | 'send';
  /** By the place of the line on the page. */
  readonly answers: ReadonlyMap<number, Answer>;
  /** By place: the day on which a deferred line is spoken of again; null where the field was left empty. */
  readonly days: ReadonlyMap<number, string | null>;
  readonly dayIsWrong: boolean;
  /** Places of the boxes that are ticked, as in `0-1`; undefined where no boxes were shown. */
  readonly ticked: ReadonlySet<string> | undefined;
  readonly shownSha256: string;
  readonly expectedTotalCents: number;
  readonly name: string;
}

const NAME_LENGTH = 120;

const isAnswer = (value: unknown): value is Answer => ANSWERS.some((answer) => answer === value);
const isDay = (text: string): boolean =>
  /^[12]\d{3}-\d{2}-\d{2}$/.test(text) && isInstant(`${text}T00:00:00Z`);

/** A field that was sent twice counts once, by its last value. */
function textIn(body: Readonly<Record<string, unknown>>, field: string): string {
  const value = body[field];
  const last: unknown = Array.isArray(value) ? value.at(-1) : value;
  return typeof last === 'string' ? last.replaceAll('\0', '').trim() : '';
}

const BOX = /^c(\d{1,3}-\d{1,3})$/;

function tickedIn(body: Readonly<Record<string, unknown>>): ReadonlySet<string> {
  const keys = Object.keys(body).map((field) => BOX.exec(field)?.[1]);
  return new Set(keys.filter((key) => key !== undefined && textIn(body, `c${key}`) === '1') as string[]);
}

/** Fields: `step`, `a0` … for the answers, `d0` … for the days, `c0-0` … for what is agreed
 * to in advance with `boxes` where there were any, `sha`, `total`, `name`. */
export function readForm(raw: unknown, lines: number): SentForm {
  const body = (typeof raw === 'object' && raw !== null ? raw : {}) as Readonly<Record<string, unknown>>;
  const answers = new Map<number, Answer>();
  const days = new Map<number, string | null>();
  let dayIsWrong = false;
  for (let at = 0; at < lines; at += 1) {
    const answer = textIn(body, `a${at}`);
    if (isAnswer(answer)) answers.set(at, answer);
    if (answer !== 'deferred' || body[`d${at}`] === undefined) continue;
    const day = textIn(body, `d${at}`);
    if (day === '' || isDay(day)) days.set(at, day === '' ? null : day);
    else dayIsWrong = true;
  }
  const step = textIn(body, 'step');
  const total = textIn(body, 'total');
  return {
    step: step === 'send' || step === 'change' ? step : 'review',
    answers,
    days,
    dayIsWrong,
    ticked: textIn(body, 'boxes') === '' ? undefined : tickedIn(body),
    shownSha256: textIn(body, 'sha'),
    expectedTotalCents: /^\d{1,10}$/.test(total) ? Number(total) : -1,
    name: textIn(body, 'name').slice(0, NAME_LENGTH),
  };
}
