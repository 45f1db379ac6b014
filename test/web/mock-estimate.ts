import type { Estimate, Line, Order, OrderSummary, Revision } from '../../apps/web/src/api/estimate-types.js';
import { at, id } from './mock-data.js';
import { rangeOfTotal } from './mock-choices.js';
import { DRAFT, ORDER, SENT } from './mock-ids.js';
import { LINES, type MockLine } from './mock-lines.js';
import { priced } from './mock-prices.js';

/** A car of unknown condition in the invented shop: revision 1 was answered, revision 2 is being written. */

export interface MockDesk {
  order: Order;
  orders: OrderSummary[];
  authorisedCents: number;
  valueCents: number | null;
  lines: MockLine[];
  draftVersion: number;
  sent: boolean;
}

export function demoDesk(): MockDesk {
  return {
    order: demoOrder(),
    orders: demoOrders(),
    authorisedCents: 18_900,
    valueCents: 320_000,
    lines: structuredClone(LINES) as MockLine[],
    draftVersion: 4,
    sent: false,
  };
}

const vehicle = { id: id(7, 1), plate: 'KLV 40R', make: 'Ostrel', model: 'Dace', modelYear: 2009 };

function demoOrder(): Order {
  return {
    id: ORDER,
    number: 2479,
    stage: 'estimating',
    vehicle: {
      ...vehicle,
      vin: null,
      colour: 'green',
      drivetrain: 'combustion',
      weightKg: 1240,
      heightMm: 1480,
    },
    customer: { id: id(8, 1), displayName: 'Aurel Stenby', phone: '+43 1 555 0147', email: null },
    concern: 'Knocks over every bump at the front, and the brakes pull to the left. Is it worth it?',
    odometerUnit: 'km',
    odometerIn: 184_210,
    odometerOut: null,
    wantsPartsBack: false,
    droppedOffAt: at('08:05'),
    promisedAt: at('16:30'),
    pickedUpAt: null,
    openedByName: 'Nell Farrow',
    inspections: [],
    counts: {
      findings: 7,
      openFindings: 1,
      unsentLines: 7,
      undecidedLines: 0,
      decidedLines: 1,
      workOrders: 1,
      openWorkOrders: 1,
    },
    reservation: null,
    warnings: [
      {
        findingId: id(9, 1),
        title: 'Front lower ball joint, left',
        word: 'Unsafe',
        mayDrive: 'no',
        warning: 'Front lower ball joint, left: the car must not be driven.',
      },
    ],
    version: 3,
  };
}

function demoOrders(): OrderSummary[] {
  const one = (n: number, more: Partial<OrderSummary>): OrderSummary => ({
    id: id(5, n),
    number: n,
    stage: 'on-the-floor',
    vehicleId: id(7, n),
    plate: `TRK ${n - 2400}`,
    make: 'Tarrik',
    model: 'Kestin',
    modelYear: 2014,
    customerId: id(8, n),
    customerName: 'Bettina Quarle',
    concern: 'Service is due.',
    droppedOffAt: at('07:40'),
    promisedAt: null,
    pickedUpAt: null,
    isUnsafe: false,
    ...more,
  });
  return [
    one(2479, {
      ...vehicle,
      id: ORDER,
      stage: 'estimating',
      customerName: 'Aurel Stenby',
      concern: 'Knocks over every bump at the front, and the brakes pull to the left. Is it worth it?',
      promisedAt: at('16:30'),
      isUnsafe: true,
    }),
    one(2481, { make: 'Corvane', model: 'Talis', plate: 'RTN 118', customerName: 'Odalys Wren' }),
    one(2488, {
      stage: 'awaiting-decision',
      concern: 'The handbrake does not hold on the hill by the school.',
    }),
    one(2491, {
      stage: 'ready',
      make: 'Lumora',
      model: 'Perrin',
      plate: null,
      customerName: 'Istvan Morrow',
    }),
  ];
}

export function estimateOf(desk: MockDesk): Estimate {
  return {
    repairOrderId: ORDER,
    currency: 'EUR',
    authorisedCents: desk.authorisedCents,
    contingentCents: 19_000,
    vehicle: { words: 'Ostrel Dace, 2009', valueCents: desk.valueCents },
    revisions: [sentRevision(), ...(desk.lines.length > 0 ? [draft(desk)] : [])],
    notice: 'Local law decides what a shop must put in writing before it works. This is not legal advice.',
  };
}

const state = (
  sent: boolean,
): Pick<Revision, 'state' | 'sentAt' | 'sentBy' | 'validUntil' | 'shownSha256'> => ({
  state: sent ? 'sent' : 'draft',
  sentAt: sent ? at('09:12') : null,
  sentBy: sent ? 'Nell Farrow' : null,
  validUntil: sent ? at('18:00') : null,
  shownSha256: sent ? 'a'.repeat(64) : null,
});

function draft(desk: MockDesk): Revision {
  const whole = priced(
    desk.lines,
    desk.lines.map((line) => line.id),
  );
  return {
    id: DRAFT,
    repairOrderId: ORDER,
    number: 2,
    version: desk.draftVersion,
    ...state(desk.sent),
    lines: desk.lines.map((line, n) => lineOf(line, n + 1, desk)),
    totals: whole.totals,
    breakdown: whole.breakdown,
    approvedCents: 0,
    orderDiscount: null,
    packages: [],
    range: rangeOfTotal(0),
  };
}

function lineOf(line: MockLine, sequence: number, desk: MockDesk): Line {
  const alone = priced([line], [line.id]);
  const together = priced(
    desk.lines,
    desk.lines.map((one) => one.id),
  );
  return {
    id: line.id,
    revisionId: DRAFT,
    version: desk.draftVersion,
    sequence,
    title: line.title,
    explanation: line.explanation,
    consequence: line.consequence,
    word: line.word,
    findings: line.word === null ? [] : [finding(line)],
    rateId: id(4, 1),
    rateCentsPerHour: 9600,
    enteredHundredths: null,
    enteredSource: null,
    operations: line.operations,
    steps: [],
    items: line.items,
    alone: alone.totals,
    together: together.lines.find((one) => one.lineId === line.id)?.figures ?? alone.totals,
    breakdown: alone.breakdown,
    decision: null,
    stake: 'none',
    benefit: { benefit: line.benefit, why: line.why },
    mustInclude: line.word === 'Unsafe',
    requires: line.requires ?? [],
    excludes: [],
    spread: null,
    discount: line.discount ?? null,
    noCharge: line.noCharge ?? null,
    contingencies: line.contingencies ?? [],
  };
}

const finding = (line: MockLine): Line['findings'][number] => ({
  findingId: id(9, 1),
  title: line.title,
  word: line.word ?? 'Watch',
  mayDrive: line.word === 'Unsafe' ? 'no' : 'yes',
});

function sentRevision(): Revision {
  const [first] = LINES;
  if (!first) throw new Error('the mock has no line');
  const line: MockLine = {
    ...first,
    id: id(3, 900),
    title: 'Find the knock at the front',
    word: null,
    items: [],
    shared: 0,
    own: 80,
  };
  const { totals, breakdown } = priced([line], [line.id]);
  const shown = lineOf(line, 1, { ...demoDesk(), lines: [line] });
  return {
    id: SENT,
    repairOrderId: ORDER,
    number: 1,
    version: 2,
    ...state(true),
    lines: [
      {
        ...shown,
        revisionId: SENT,
        explanation: 'Half an hour on the lift and a drive, to hear it.',
        consequence: null,
        contingencies: [],
        decision: {
          id: id(6, 900),
          lineId: line.id,
          revisionId: SENT,
          sequence: 1,
          answer: 'approved',
          shownHundredths: totals.hundredths,
          shownLabourCents: totals.labourCents,
          shownPartsCents: totals.partsCents,
          shownSuppliesCents: totals.suppliesCents,
          shownTaxCents: totals.taxCents,
          shownDiscountCents: 0,
          shownTotalCents: totals.totalCents,
          shownSha256: 'a'.repeat(64),
          decidedAt: at('09:20'),
          channel: 'phone',
          decidedBy: 'Aurel Stenby',
          lookAgainOn: null,
        },
      },
    ],
    totals,
    breakdown,
    approvedCents: totals.totalCents,
    orderDiscount: null,
    packages: [],
    range: rangeOfTotal(0),
  };
}
