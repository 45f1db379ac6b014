import { Api } from './api.js';
import { dropOff } from './chapters/drop-off.js';
import { estimate } from './chapters/estimate.js';
import { doTheWork, prepareFloor, raceForOne } from './chapters/floor.js';
import { inspect } from './chapters/inspection.js';
import { decide, FIRST_OFFER } from './chapters/owner.js';
import { review } from './chapters/review.js';
import { foundUnderWay } from './chapters/under-way.js';
import { expectThat, type Cast, type StepTold, type Tell, type TourResult } from './story.js';

interface About {
  readonly clockRate: number;
  readonly demo: {
    readonly accounts: readonly {
      readonly role: string;
      readonly email: string;
      readonly password: string;
    }[];
  };
}

/** Hooks for whoever wants to disturb the tour between two steps (the test that kills the server does). */
export interface Disturbance {
  readonly afterStep?: (step: StepTold, number: number) => Promise<void>;
}

/** The whole main line through the public API. Throws when something does not happen or a sum does not agree. */
export async function runTour(
  base: string,
  say: (text: string) => void,
  disturbance: Disturbance = {},
): Promise<TourResult> {
  const steps: StepTold[] = [];
  const tell: Tell = (who, what, figures) => {
    steps.push({ who, what, ...(figures ? { figures } : {}) });
    say(`${String(steps.length).padStart(2)}. ${who} ${what}`);
  };
  const disturb = async (): Promise<void> => {
    const last = steps.at(-1);
    if (last) await disturbance.afterStep?.(last, steps.length);
  };
  const cast = await gather(base);
  const stay = await dropOff(cast, tell);
  await disturb();
  const findings = await inspect(cast, stay, tell);
  await disturb();
  const first = await estimate(cast, stay, findings.at, tell);
  await disturb();
  let approvedCents = await decide(cast, first, FIRST_OFFER, tell);
  await disturb();
  const holds = await prepareFloor(cast, stay, tell);
  await disturb();
  await raceForOne(cast, stay, tell);
  let sentCents = first.totalCents;
  let lines = first.lines.size;
  let found = findings.count;
  await doTheWork(cast, stay, tell, async (during) => {
    const more = await foundUnderWay(cast, stay, during, tell);
    sentCents += more.sent.totalCents;
    approvedCents += more.approvedCents;
    lines += more.sent.lines.size;
    found += 1;
    await disturb();
  });
  const reviewed = await review(cast, stay, approvedCents, tell);
  expectThat(approvedCents < sentCents, 'not everything that was offered was agreed to');
  return {
    findings: found,
    lines,
    sentCents,
    approvedCents,
    workOrders: reviewed.workOrders,
    holds,
    bookHours: reviewed.bookHundredths / 100,
    clockedHours: Math.round((reviewed.clockedSeconds / 3600) * 10_000) / 10_000,
    invoiceableCents: reviewed.invoiceableCents,
    steps,
  };
}

async function gather(base: string): Promise<Cast> {
  const about = await Api.stranger(base).get<About>('/about');
  const signIn = (role: string, nth = 0): Promise<Api> => {
    const account = about.demo.accounts.filter((a) => a.role === role)[nth];
    if (!account) throw new Error(`the demonstration shop has no ${role}`);
    return Api.signIn(base, account.email, account.password);
  };
  return {
    base,
    frontDesk: await signIn('front desk'),
    technician: await signIn('technician'),
    secondTechnician: await signIn('technician', 1),
    manager: await signIn('manager'),
    owner: Api.stranger(base, 'The owner'),
    minuteMs: 60_000 / about.clockRate,
  };
}
