import { useState } from 'react';
import type { WhatIfSummary } from '../api/what-if-types.js';
import { SignedInOnly } from '../session/gate.js';
import type { SignedIn } from '../session/session.js';
import { SessionTools } from '../ui/session-tools.js';
import { SheetPage } from '../ui/sheet-page.js';
import { StatusLine } from '../ui/status-line.js';
import { Ways } from '../ui/ways.js';
import { Answer } from './answer.js';
import { AskForm } from './ask-form.js';
import { useWhatIfs } from './use-what-ifs.js';

/** What one more lift, technician, open day or tool would change: the same work replayed, for the manager. */
export function WhatIfPage() {
  return (
    <SignedInOnly what="What if" blank={<BlankPage />}>
      {(session) => <SignedInPage session={session} />}
    </SignedInOnly>
  );
}

/** The paper before anything is printed on it. */
function BlankPage() {
  return (
    <div className="page" aria-busy="true">
      <header className="top" />
      <main className="what-if" aria-label="Reading what was asked" />
    </div>
  );
}

function SignedInPage({ session }: { readonly session: SignedIn }) {
  const [picked, setPicked] = useState<string | null>(null);
  const inHand = useWhatIfs(picked);
  const { floor, asked, shown, fault, line, read, ask } = inHand;
  const isRead = floor !== undefined && asked !== undefined;
  return (
    <div className="page">
      <header className="top">
        <p className="house">
          {session.shop.name}
          <small>What if</small>
        </p>
        <nav className="ways" aria-label="Other pages">
          <Ways session={session} here="/what-if" />
        </nav>
        <SessionTools session={session} />
      </header>
      {isRead && (
        <main className="what-if">
          <h1>What if there were one more?</h1>
          <p className="as-of">
            The work of the last months is done again, car by car, with what you have and with what you might
            have. Nothing in the plan changes.
          </p>
          <div className="what-if-columns">
            <div className="asking">
              <AskForm floor={floor} ask={ask} onAsked={setPicked} />
              <Asked asked={asked} shownId={shown?.id} onPick={setPicked} />
            </div>
            {shown && <Answer shown={shown} />}
            {!shown && <p className="empty">Nothing has been asked yet.</p>}
          </div>
        </main>
      )}
      {!isRead && !fault && <main className="what-if" aria-label="Reading what was asked" aria-busy="true" />}
      {!isRead && fault && (
        <SheetPage
          title={fault.code === 'line-lost' ? 'The server does not answer' : 'This page cannot be shown'}
        >
          <p>{fault.detail}</p>
          <button type="button" className="button main" onClick={() => void read()}>
            Try again
          </button>
        </SheetPage>
      )}
      <StatusLine
        lost={line === 'lost'}
        lostWords="What is shown was read before. It is read again by itself."
        words={isRead && fault ? fault.detail : ''}
        refused={isRead && fault !== null}
      />
    </div>
  );
}

const STATES: Readonly<Record<WhatIfSummary['state'], string>> = {
  waiting: 'waiting',
  running: 'being replayed',
  answered: 'answered',
  failed: 'no answer',
};

interface AskedProps {
  readonly asked: readonly WhatIfSummary[];
  readonly shownId: string | undefined;
  readonly onPick: (id: string) => void;
}

function Asked({ asked, shownId, onPick }: AskedProps) {
  if (asked.length === 0) return null;
  return (
    <section className="asked" aria-labelledby="asked-title">
      <h2 id="asked-title">Asked lately</h2>
      <ol>
        {asked.map((one) => (
          <li key={one.id}>
            <button
              type="button"
              aria-current={one.id === shownId ? 'true' : undefined}
              onClick={() => onPick(one.id)}
            >
              {one.asked.join('; ')}
            </button>
            <small>
              {one.askedBy.displayName}, {STATES[one.state]}
            </small>
          </li>
        ))}
      </ol>
    </section>
  );
}
