import type { BenefitWeights } from '#libs/choice';
import type { Breakdown, ChoicePrice, ChosenLinePrice, LinePackage, OrderDiscount } from '#libs/estimate';
import { cents } from '#libs/kernel';
import { verdictWord } from '#libs/inspection';
import { figuresResponse } from '../dto/figures.response.js';
import type { ContingencyResponse } from '../dto/contingency.response.js';
import type { LineItemResponse, LineResponse } from '../dto/line.response.js';
import type { RangeResponse } from '../dto/range.response.js';
import type { RevisionResponse } from '../dto/revision.response.js';
import type { LineFacts, LineItemFacts } from '../queries/lines.query.js';
import type { RevisionHead } from '../queries/offer.query.js';
import type { LatestDecision } from '../queries/standing-decisions.query.js';
import { discountResponse, lineDiscount, orderDiscountResponse } from './discount.mapping.js';
import { choiceInDocument, choiceOfLine } from './line-choice.js';
import { wordOfLine } from './line.mapping.js';
import { named, namesIn } from './named.js';

interface RevisionParts {
  readonly head: RevisionHead;
  readonly lines: readonly LineFacts[];
  /** Of all lines as one choice, in the order of the lines. */
  readonly price: ChoicePrice;
  readonly decisions: ReadonlyMap<string, LatestDecision>;
  /** By line. */
  readonly contingencies: ReadonlyMap<string, ContingencyResponse[]>;
  readonly orderDiscount: OrderDiscount | undefined;
  readonly packages: readonly LinePackage[] | undefined;
  readonly range: RangeResponse;
  readonly showCost: boolean;
  readonly weights: BenefitWeights;
}

/** Of an item that was saved before there were price rules. */
const enteredPrice = ({ unitPriceCents }: LineItemFacts): Breakdown => ({
  figure: 'unit price',
  cents: cents(unitPriceCents),
  rule: 'as entered',
  inputs: [],
});

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
    priceRule: showCost ? item.priceRule : null,
    listCents: showCost ? item.listCents : null,
    marginPpm: showCost ? item.marginPpm : null,
    priceBreakdown: showCost ? (item.priceBreakdown ?? enteredPrice(item)) : null,
    coreCents: item.coreCents,
    expectedAt: item.expectedAt === null ? null : new Date(item.expectedAt).toISOString(),
  };
}

function lineResponse(
  line: LineFacts,
  price: ChosenLinePrice,
  { head, decisions, contingencies, showCost, weights }: RevisionParts,
  names: ReadonlyMap<string, string>,
): LineResponse {
  const { benefit, why, mustInclude, requires, excludes } =
    choiceInDocument(head.shown, line.id) ?? choiceOfLine(line, weights);
  return {
    id: line.id,
    revisionId: line.revisionId,
    version: head.version,
    sequence: line.sequence,
    title: line.title,
    explanation: line.explanation,
    consequence: line.consequence,
    stake: line.stake,
    benefit: { benefit, why },
    mustInclude,
    requires: [...requires],
    excludes: [...excludes],
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
    steps: line.steps.map(({ stepId, name, position, hundredths, rateCentsPerHour }) => ({
      ...{ stepId, name, position, hundredths, rateCentsPerHour },
    })),
    items: line.items.map((item) => itemResponse(item, showCost)),
    noCharge: line.noCharge,
    discount: line.discount === null ? null : discountResponse(lineDiscount(line.discount)),
    spread: line.spread,
    contingencies: contingencies.get(line.id) ?? [],
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
  const charged = [...parts.contingencies.values()].flat().map(({ chargedCents }) => chargedCents ?? 0);
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
    orderDiscount: orderDiscountResponse(parts.orderDiscount),
    packages: (parts.packages ?? []).map(({ name, lineIds, hundredths }) => ({
      name,
      lineIds: [...lineIds],
      hundredths,
    })),
    totals: figuresResponse(price.totals),
    breakdown: named(price.totals.breakdown, names),
    range: parts.range,
    approvedCents: [...approved, ...charged].reduce<number>((sum, cents) => sum + cents, 0),
  };
}
