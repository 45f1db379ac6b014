import { mayPlan } from '../board/may-plan.js';
import { SignedInOnly } from '../session/gate.js';
import type { SignedIn } from '../session/session.js';
import { SessionTools } from '../ui/session-tools.js';
import { SheetPage } from '../ui/sheet-page.js';
import { Ways } from '../ui/ways.js';
import { WhenDesk } from './when-desk.js';

/** When could a car that may come be ready: for the front desk and the manager, with the phone at the ear. */
export function WhenPage() {
  return (
    <SignedInOnly what="The page" blank={<BlankWhen />}>
      {(session) => <SignedInWhen session={session} />}
    </SignedInOnly>
  );
}

/** The paper before anything is printed on it. */
function BlankWhen() {
  return (
    <div className="page" aria-busy="true">
      <header className="top" />
      <main aria-label="Reading" />
    </div>
  );
}

function SignedInWhen({ session }: { readonly session: SignedIn }) {
  if (!mayPlan(session.staff)) {
    return (
      <SheetPage title="Times are promised at the desk">
        <p>This page is for the front desk and the manager. What there is to do stands on the job board.</p>
        <a className="button main" href="/board">
          To the job board
        </a>
      </SheetPage>
    );
  }
  return (
    <div className="page">
      <header className="top">
        <p className="house">
          {session.shop.name}
          <small>When?</small>
        </p>
        <nav className="ways" aria-label="Other pages">
          <Ways session={session} here="/when" />
        </nav>
        <SessionTools session={session} />
      </header>
      <WhenDesk zone={session.shop.timeZone} />
    </div>
  );
}
