import type { ChoicePrice, ChosenLinePrice } from '#libs/estimate';
import { verdictWord } from '#libs/inspection';
import { figuresResponse } from '../dto/figures.response.js';
import type { LineItemResponse, LineResponse } from '../dto/line.response.js';
import type { RevisionResponse } from '../dto/revision.response.js';
import type { LineFacts, LineItemFacts } from '../queries/lines.query.js';
import type { RevisionHead } from '../queries/offer.query.js';
import type { LatestDecision } from '../queries/standing-decisions.query.js';
import { wordOfLine } from './line.mapping.js';
import { named, namesIn } from './named.js';

interface RevisionParts {
  readonly head: RevisionHead;
  readonly lines: readonly LineFacts[];
  /** Of all lines as one choice, in the order of the lines. */
  readonly price: ChoicePrice;
  readonly decisions: ReadonlyMap<string, LatestDecision>;
  readonly showCost: boolean;
}

function itemResponse(item: LineItemFacts, showCost: boolean): LineItemResponse {
  return {
    id: item.id,
    kind: item.kind,
    name: item.name,
    partNumber: item.partNumber,
    condition: item.condition,
    source: item.source,
    quantityHundredths: item.quantityHundredths,
    unitPriceCents: item.unitPriceCents,
    unitCostCents: showCost ? item.unitCostCents : null,
    coreCents: item.coreCents,
    expectedAt: item.expectedAt === null ? null : new Date(item.expectedAt).toISOString(),
  };
}

function lineResponse(
  line: LineFacts,
  price: ChosenLinePrice,
  { head, decisions, showCost }: RevisionParts,
  names: ReadonlyMap<string, string>,
): LineResponse {
  return {
    id: line.id,
    revisionId: line.revisionId,
    version: head.version,
    sequence: line.sequence,
    title: line.title,
    explanation: line.explanation,
    consequence: line.consequence,
    // What was sent stays as it was shown, whatever became of the finding since.
    word: (head.shown?.lines.find(({ id }) => id === line.id) ?? { verdict: wordOfLine(line) }).verdict,
    findings: line.findings.map((finding) => ({
      findingId: finding.findingId,
      title: finding.title,
      word: verdictWord(finding),
      mayDrive: finding.mayDrive,
    })),
    rateId: line.rateId,
    rateCentsPerHour: line.rateCentsPerHour,
    enteredHundredths: line.enteredHundredths,
    enteredSource: line.enteredSource,
    operations: line.operations,
    steps: line.steps,
    items: line.items.map((item) => itemResponse(item, showCost)),
    alone: figuresResponse(price.alone),
    together: figuresResponse(price),
    breakdown: named(price.breakdown, names),
    decision: decisions.get(line.id)?.response ?? null,
  };
}

export function revisionResponse(parts: RevisionParts): RevisionResponse {
  const { head, lines, price, decisions } = parts;
  const names = namesIn(lines);
  const prices = new Map(price.lines.map((line) => [line.id, line]));
  const approved = lines.flatMap(({ id }) => {
    const decision = decisions.get(id);
    return decision?.answer === 'approved' ? [decision.shownTotalCents] : [];
  });
  return {
    id: head.id,
    repairOrderId: head.repairOrderId,
    number: head.number,
    version: head.version,
    state: head.sentAt === null ? 'draft' : 'sent',
    sentAt: head.sentAt?.toISOString() ?? null,
    sentBy: head.sentBy,
    validUntil: head.validUntil?.toISOString() ?? null,
    shownSha256: head.shownSha256,
    lines: lines.flatMap((line) => {
      const own = prices.get(line.id);
      return own?.chosen ? [lineResponse(line, own, parts, names)] : [];
    }),
    totals: figuresResponse(price.totals),
    breakdown: named(price.totals.breakdown, names),
    approvedCents: approved.reduce<number>((sum, cents) => sum + cents, 0),
  };
}
