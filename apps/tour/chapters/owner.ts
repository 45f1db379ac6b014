import { LINES, type PlannedLine } from '../scenario.js';
import { expectEqual, expectThat, money, type Cast, type Tell } from '../story.js';
import type { Sent } from './estimate.js';

interface Price {
  readonly shownSha256: string;
  readonly totals: { readonly totalCents: number };
  readonly savedCents: number;
}

interface Recorded {
  readonly decisions: readonly {
    readonly id: string;
    readonly lineId: string;
    readonly answer: string;
    readonly shownTotalCents: number;
  }[];
}

/** The owner has nothing but the link: looks, asks what the choice costs, and answers line by line. */
export async function decide(
  cast: Cast,
  sent: Sent,
  planned: readonly PlannedLine[],
  tell: Tell,
): Promise<number> {
  const { owner } = cast;
  const address = `/approval-links/${sent.token}`;
  await owner.get(address);
  const answers = planned.map((line) => ({ lineId: idOf(sent, line.title), answer: line.owner }));
  const chosen = answers.filter((a) => a.answer === 'approved').map((a) => a.lineId);
  const price = await owner.post<Price>(`${address}/prices`, { chosen });
  const request = {
    answers,
    shownSha256: price.shownSha256,
    expectedTotalCents: price.totals.totalCents,
    decidedBy: 'Ilse Marrow',
  };
  const wrong = await owner.refusal(
    owner.post(`${address}/decisions`, { ...request, expectedTotalCents: price.totals.totalCents - 1 }),
  );
  expectThat(wrong.code === 'shown-has-changed', 'an answer to other figures than those shown is refused');
  const recorded = await owner.post<Recorded>(`${address}/decisions`, request);
  const approved = recorded.decisions.filter((d) => d.answer === 'approved');
  const cents = approved.reduce((sum, d) => sum + d.shownTotalCents, 0);
  expectEqual(cents, price.totals.totalCents, 'the approved lines add up to the total that was shown');
  const repeat = await owner.post<Recorded>(`${address}/decisions`, request);
  expectThat(
    JSON.stringify(ids(repeat)) === JSON.stringify(ids(recorded)),
    'sending the same answers again changes nothing',
  );
  tell(
    owner.who,
    `opens the link and answers ${answers.length} ${answers.length === 1 ? 'line' : 'lines'}: ${summary(planned)}. Agreed: ${money(cents)}${price.savedCents > 0 ? `, ${money(price.savedCents)} less than one by one` : ''}.`,
    { approvedCents: cents },
  );
  return cents;
}

const ids = (r: Recorded): string[] => r.decisions.map((d) => d.id).sort();

function idOf(sent: Sent, title: string): string {
  const id = sent.lines.get(title);
  if (id === undefined) throw new Error(`the story does not hold: ${title} was sent`);
  return id;
}

function summary(planned: readonly PlannedLine[]): string {
  const titles = (answer: string): string[] =>
    planned.filter((l) => l.owner === answer).map((l) => l.title.toLowerCase());
  const no = titles('declined');
  const later = titles('deferred');
  return [
    `yes to ${planned.length - no.length - later.length}`,
    ...(no.length > 0 ? [`no to ${no.join(', ')}`] : []),
    ...(later.length > 0 ? [`not now to ${later.join(', ')}`] : []),
  ].join(', ');
}

export const FIRST_OFFER = LINES;
