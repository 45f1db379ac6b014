import { type ReactNode, useState } from 'react';
import { mayPlan, type Person } from '../board/may-plan.js';
import { instantOf } from '../board/instant-of.js';
import { dayWords, shiftDay } from '../board/zone-time.js';
import { call } from '../api/client.js';
import { today } from '../estimate/today.js';
import { refusalWords } from '../ui/refusal.js';
import { AbsenceForm } from './absence-form.js';
import type { Entry } from './acts.js';
import { ClosedDayForm } from './closed-day-form.js';
import { ClosureForm } from './closure-form.js';
import { EntryRow } from './entry-row.js';
import { bayName, unitName } from './names.js';
import type { Calendar, ClosedDay, Floor } from './types.js';

export type Say = (words: string, refused?: boolean) => void;

export interface LedgerProps {
  readonly calendar: Calendar;
  readonly floor: Floor;
  readonly staff: Person;
  /** The first day shown, and how many. */
  readonly first: string;
  readonly days: number;
  readonly say: Say;
  readonly read: () => Promise<void>;
}

type Form = 'absence' | 'closure' | 'closed-day';

/** Three lists of one kind of line: a name, a stretch of time in words and on a strip, and what can be done about it. */
export function Ledger(props: LedgerProps) {
  const { calendar, floor, staff, first, days, say, read } = props;
  const [form, setForm] = useState<Form | null>(null);
  const zone = calendar.timeZone;
  const strip = {
    from: instantOf(first, '00:00', zone),
    to: instantOf(shiftDay(first, days), '00:00', zone),
    closed: calendar.closedDays.map(({ day }) => instantOf(day, '00:00', zone)),
  };
  const may = mayPlan(staff);
  const rows = (entries: readonly Entry[]) =>
    entries.map((entry) => <EntryRow key={entry.of.id} {...{ entry, zone, strip, may, say, read }} />);
  const close = (): void => setForm(null);
  const forms = { floor, zone, say, read, onClose: close };
  return (
    <main className="times">
      <Part title="Away" empty="Nobody is away." act={may && ['Record an absence', () => setForm('absence')]}>
        {rows(awayEntries(calendar))}
      </Part>
      <Part
        title="Out of service"
        empty="Every bay and every tool is there."
        act={may && ['Take out of service', () => setForm('closure')]}
      >
        {[...outForNow(floor), ...rows(outEntries(calendar, floor))]}
      </Part>
      <Part
        title="Shop closed"
        empty="The shop is closed on no day of these weeks."
        act={leads(staff) && ['Close a day', () => setForm('closed-day')]}
      >
        {calendar.closedDays.map((day) => (
          <ClosedDayRow key={day.day} {...{ day, zone, say, read }} may={leads(staff)} />
        ))}
      </Part>
      {form === 'absence' && <AbsenceForm {...forms} />}
      {form === 'closure' && <ClosureForm {...forms} />}
      {form === 'closed-day' && <ClosedDayForm {...forms} />}
    </main>
  );
}

/** Days on which the shop is closed are the manager's to say. */
const leads = (staff: Person): boolean =>
  staff.roles.some((role) => ['manager', 'administrator'].includes(role));

const awayEntries = ({ absences }: Calendar): Entry[] =>
  absences.map((of) => ({ kind: 'absence', name: of.technicianName, of }));

const outEntries = ({ bayClosures, toolClosures }: Calendar, { bays, tools }: Floor): Entry[] => [
  ...bayClosures.map((of): Entry => ({ kind: 'bay', name: bayName(bays, of.bayId, of.bayName), of })),
  ...toolClosures.map((of): Entry => ({
    kind: 'tool',
    name: unitName(tools, of.toolId, of.toolName, of.unit),
    of,
  })),
];

/** A bay can also carry a reason without any time: it is out until somebody takes the reason away. */
const outForNow = ({ bays }: Floor): ReactNode[] =>
  bays
    .filter(({ isActive, outOfServiceReason }) => isActive && outOfServiceReason !== null)
    .map((bay) => (
      <li key={bay.id} className="entry">
        <b className="who">{bayName([bay], bay.id, bay.name)}</b>
        <p className="when">Out of service until it is put back in the floor’s settings</p>
        <p className="why">{bay.outOfServiceReason}</p>
      </li>
    ));

interface PartProps {
  readonly title: string;
  readonly empty: string;
  readonly act: readonly [string, () => void] | false;
  readonly children: readonly ReactNode[];
}

function Part({ title, empty, act, children }: PartProps) {
  return (
    <section className="part" aria-label={title}>
      <header>
        <h2>{title}</h2>
        {act && (
          <button type="button" className="button" onClick={act[1]}>
            {act[0]}
          </button>
        )}
      </header>
      {children.length === 0 ? <p className="empty">{empty}</p> : <ol className="entries">{children}</ol>}
    </section>
  );
}

interface ClosedDayProps {
  readonly day: ClosedDay;
  readonly zone: string;
  readonly may: boolean;
  readonly say: Say;
  readonly read: () => Promise<void>;
}

function ClosedDayRow({ day: { day, name }, zone, may, say, read }: ClosedDayProps) {
  const words = dayWords(day, today(zone));
  const open = async (): Promise<void> => {
    const done = await call('delete', '/api/v1/closed-days/{day}', { path: { day } });
    await read();
    say(done.ok ? `The shop is open on ${words}.` : refusalWords(done.fault, 'page'), !done.ok);
  };
  return (
    <li className="entry">
      <b className="who">{words}</b>
      <p className="why">{name}</p>
      {may && (
        <div className="acts">
          <button type="button" className="button" onClick={() => void open()}>
            Open on that day<span className="vh">, {words}</span>
          </button>
        </div>
      )}
    </li>
  );
}
