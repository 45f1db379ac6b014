import { SignedInOnly } from '../session/gate.js';
import type { SignedIn } from '../session/session.js';
import { SessionTools } from '../ui/session-tools.js';
import { SheetPage } from '../ui/sheet-page.js';
import { Ways } from '../ui/ways.js';
import { PlanDesk } from './plan-desk.js';
import { usePlan } from './use-plan.js';

/** The plan of the shop: for the front desk and the manager to decide on, for technicians to read. */
export function PlanPage() {
  return (
    <SignedInOnly what="The plan" blank={<BlankPlan />}>
      {(session) => <SignedInPlan session={session} />}
    </SignedInOnly>
  );
}

/** The paper before anything is printed on it. */
function BlankPlan() {
  return (
    <div className="page" aria-busy="true">
      <header className="top" />
      <main className="plan" aria-label="Reading the plan" />
    </div>
  );
}

function SignedInPlan({ session }: { readonly session: SignedIn }) {
  const inHand = usePlan();
  const { plan, fault } = inHand;
  return (
    <div className="page">
      <header className="top">
        <p className="house">
          {session.shop.name}
          <small>The plan</small>
        </p>
        <nav className="ways" aria-label="Other pages">
          <Ways session={session} here="/plan" />
        </nav>
        <SessionTools session={session} />
      </header>
      {plan && <PlanDesk plan={plan} inHand={inHand} person={session.staff} />}
      {!plan && !fault && <main className="plan" aria-label="Reading the plan" aria-busy="true" />}
      {!plan && fault && (
        <SheetPage
          title={fault.code === 'line-lost' ? 'The server does not answer' : 'The plan cannot be shown'}
        >
          <p>{fault.detail}</p>
          <button type="button" className="button main" onClick={() => void inHand.read()}>
            Try again
          </button>
        </SheetPage>
      )}
    </div>
  );
}
