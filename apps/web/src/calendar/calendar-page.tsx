import { useCallback, useState } from 'react';
import { dayWords, shiftDay } from '../board/zone-time.js';
import { today } from '../estimate/today.js';
import { SignedInOnly } from '../session/gate.js';
import type { SignedIn } from '../session/session.js';
import { SessionTools } from '../ui/session-tools.js';
import { SheetPage } from '../ui/sheet-page.js';
import { StatusLine } from '../ui/status-line.js';
import { Ways } from '../ui/ways.js';
import { Ledger } from './ledger.js';
import { useCalendar } from './use-calendar.js';

/** Eight weeks: further than anything is planned, and still a strip on which a day can be seen. */
const DAYS = 56;
const STEP = 28;

/** Who is away, what is out of service and when the shop is closed. */
export function CalendarPage() {
  return (
    <SignedInOnly what="This page" blank={<div className="page" aria-busy="true" />}>
      {(session) => <Times session={session} />}
    </SignedInOnly>
  );
}

function Times({ session }: { readonly session: SignedIn }) {
  const zone = session.shop.timeZone;
  const now = today(zone);
  const [first, setFirst] = useState(now);
  const last = shiftDay(first, DAYS - 1);
  const [said, setSaid] = useState({ words: '', refused: false });
  const say = useCallback((words: string, refused = false) => setSaid({ words, refused }), []);
  const { calendar, floor, fault, line, read } = useCalendar(first, last);
  return (
    <div className="page">
      <header className="top">
        <h1 className="house">
          {session.shop.name}
          <small>
            Times, {dayWords(first, now)} to {dayWords(last, now)}
          </small>
        </h1>
        <nav className="days" aria-label="Weeks">
          <button
            type="button"
            onClick={() => setFirst(shiftDay(first, -STEP))}
            aria-label="Four weeks earlier"
          >
            <Arrow path="M13 3 6 10l7 7" />
          </button>
          <button
            type="button"
            className="today"
            onClick={() => setFirst(now)}
            aria-current={first === now ? 'date' : undefined}
          >
            From today
          </button>
          <button type="button" onClick={() => setFirst(shiftDay(first, STEP))} aria-label="Four weeks later">
            <Arrow path="M7 3l7 7-7 7" />
          </button>
        </nav>
        <nav className="ways" aria-label="Other pages">
          <Ways session={session} here="/calendar" />
        </nav>
        <SessionTools session={session} />
      </header>
      {calendar && floor ? (
        <Ledger {...{ calendar, floor, first, days: DAYS, say, read }} staff={session.staff} />
      ) : (
        <Reading fault={fault?.detail} onAgain={() => void read()} />
      )}
      <StatusLine
        lost={line === 'lost'}
        lostWords="What you see was read before."
        words={said.words}
        refused={said.refused}
      />
    </div>
  );
}

function Reading({ fault, onAgain }: { readonly fault: string | undefined; readonly onAgain: () => void }) {
  if (fault === undefined) return <main aria-label="Reading the times" aria-busy="true" />;
  return (
    <SheetPage title="The times cannot be shown">
      <p>{fault}</p>
      <button type="button" className="button main" onClick={onAgain}>
        Try again
      </button>
    </SheetPage>
  );
}

function Arrow({ path }: { readonly path: string }) {
  return (
    <svg viewBox="0 0 20 20" aria-hidden="true">
      <path d={path} fill="none" stroke="currentColor" strokeWidth="2.6" />
    </svg>
  );
}
