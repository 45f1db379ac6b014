import { LINES, type PlannedLine } from '../scenario.js';
import { expectThat, hours, money, type Cast, type Tell } from '../story.js';
import type { Stay } from './drop-off.js';
import { placeKey, type Findings } from './inspection.js';

interface Figures {
  readonly hundredths: number;
  readonly labourCents: number;
  readonly totalCents: number;
}

export interface Sent {
  readonly revisionId: string;
  readonly token: string;
  readonly totalCents: number;
  /** Line ids by title. */
  readonly lines: ReadonlyMap<string, string>;
}

interface Line {
  readonly id: string;
  readonly title: string;
  readonly alone: Figures;
  readonly together: Figures;
}

interface Revision {
  readonly id: string;
  readonly number: number;
  readonly state: string;
  readonly lines: readonly Line[];
  readonly totals: Figures;
}

/** The desk turns findings into lines with parts and labour, and sends them. */
export async function estimate(cast: Cast, stay: Stay, findings: Findings, tell: Tell): Promise<Sent> {
  for (const line of LINES) await addLine(cast, stay, line, findings);
  const sent = await send(cast, stay);
  const alone = sent.revision.lines.reduce((sum, line) => sum + line.alone.hundredths, 0);
  const together = sent.revision.totals.hundredths;
  expectThat(together < alone, 'operations that share dismantling last less together than one by one');
  tell(
    cast.frontDesk.who,
    `builds ${LINES.length} lines and sends revision ${sent.revision.number}. One by one the labour would be ${hours(alone)}; together, because wheels, joints and bleeding are shared, it is ${hours(together)}. All of it: ${money(sent.revision.totals.totalCents)}.`,
    {
      lines: LINES.length,
      aloneHundredths: alone,
      togetherHundredths: together,
      sentCents: sent.revision.totals.totalCents,
    },
  );
  return sent.asSent;
}

export async function addLine(
  cast: Cast,
  stay: Stay,
  line: PlannedLine,
  findings: Findings,
  findingIds: readonly string[] = [],
): Promise<void> {
  const operations = [];
  for (const { code, positions } of line.operations)
    operations.push({ operationId: await operationId(cast, code), positions });
  const answered = line.answers.map(([component, position]) => {
    const id = findings.get(placeKey(component, position));
    if (id === undefined) throw new Error(`the story does not hold: no finding at ${component}, ${position}`);
    return id;
  });
  await cast.frontDesk.post(`/repair-orders/${stay.repairOrderId}/lines`, {
    title: line.title,
    findingIds: [...answered, ...findingIds],
    operations,
    items: line.items,
  });
}

export async function send(cast: Cast, stay: Stay): Promise<{ revision: Revision; asSent: Sent }> {
  const { frontDesk } = cast;
  const desk = await frontDesk.get<{ revisions: Revision[] }>(
    `/repair-orders/${stay.repairOrderId}/estimate`,
  );
  const draft = desk.revisions.find((r) => r.state === 'draft');
  if (!draft) throw new Error('the story does not hold: there is a draft to send');
  const { revision, link } = await frontDesk.post<{ revision: Revision; link: { url: string } }>(
    `/revisions/${draft.id}/send`,
  );
  const token = /\/o\/([\w-]+)$/.exec(link.url)?.[1];
  if (token === undefined) throw new Error(`the link ${link.url} has no token`);
  return {
    revision,
    asSent: {
      revisionId: revision.id,
      token,
      totalCents: revision.totals.totalCents,
      lines: new Map(revision.lines.map((line) => [line.title, line.id])),
    },
  };
}

async function operationId(cast: Cast, code: string): Promise<string> {
  const { items } = await cast.frontDesk.get<{ items: { id: string; code: string }[] }>(
    `/operations?q=${encodeURIComponent(code)}`,
  );
  const found = items.find((o) => o.code === code);
  if (!found) throw new Error(`the shop has no operation ${code}`);
  return found.id;
}
