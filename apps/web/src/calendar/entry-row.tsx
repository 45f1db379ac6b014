import { useState } from 'react';
import { dayOf, inShopTime } from '../board/zone-time.js';
import { today } from '../estimate/today.js';
import { Dialog } from '../ui/dialog.js';
import { refusalWords } from '../ui/refusal.js';
import { type Change, type Entry, change, plannedWords, undo } from './acts.js';
import { EndForm } from './end-form.js';
import type { Say } from './ledger.js';
import { type Span, onStrip, spanOf, spanWords } from './span.js';
import type { PlannedWork } from './types.js';

interface Strip {
  readonly from: number;
  readonly to: number;
  /** Where the days begin on which the shop is closed. */
  readonly closed: readonly number[];
}
interface RowProps {
  readonly entry: Entry;
  readonly zone: string;
  readonly strip: Strip;
  readonly may: boolean;
  readonly say: Say;
  readonly read: () => Promise<void>;
}

export function EntryRow({ entry, zone, strip, may, say, read }: RowProps) {
  const [open, setOpen] = useState<'end' | 'undo' | null>(null);
  const span = spanOf(entry.of);
  const now = Date.now();
  const isOver = span.to !== null && span.to <= now;
  const words = spanWords(span, zone, today(zone));
  const done = async (act: ReturnType<typeof change>, said: string): Promise<void> => {
    const answer = await act;
    await read();
    say(answer.ok ? said : refusalWords(answer.fault, 'page'), !answer.ok);
  };
  const changeNow = (wanted: Change, said: string): void => void done(change(entry, wanted), said);
  const { reason, planned, recordedBy } = entry.of;
  return (
    <li className={isOver ? 'entry over' : 'entry'}>
      <b className="who">{entry.name}</b>
      <p className="when">{words}</p>
      <p className="why">
        {reason}{' '}
        <small>
          {reason === null ? 'Recorded' : 'recorded'} by {recordedBy}
        </small>
      </p>
      <StripOf span={span} strip={strip} now={now} />
      {!isOver && <Planned work={planned} zone={zone} />}
      {may && !isOver && (
        <div className="acts">
          {span.from <= now && (
            <button
              type="button"
              className="button main"
              onClick={() => changeNow(backNow(entry), `${entry.name} is back.`)}
            >
              {entry.kind === 'absence' ? 'Back now' : 'Back in service'}
              <span className="vh">: {entry.name}</span>
            </button>
          )}
          <button type="button" className="button" onClick={() => setOpen('end')}>
            Change the end<span className="vh">: {entry.name}</span>
          </button>
          {(entry.kind === 'absence' || span.from > now) && (
            <button type="button" className="plain" onClick={() => setOpen('undo')}>
              {undoWord(entry)}
              <span className="vh">: {entry.name}</span>
            </button>
          )}
        </div>
      )}
      {open === 'end' && <EndForm {...{ entry, zone, say, read }} onClose={() => setOpen(null)} />}
      {open === 'undo' && (
        <UndoSlip
          entry={entry}
          words={words}
          onClose={() => setOpen(null)}
          onUndo={() => {
            setOpen(null);
            void done(
              undo(entry),
              `${entry.name}: ${entry.kind === 'absence' ? 'withdrawn' : 'called off'}.`,
            );
          }}
        />
      )}
    </li>
  );
}

const backNow = ({ kind }: Entry): Change =>
  kind === 'absence' ? { endsAt: new Date().toISOString() } : { isBackInService: true };
const undoWord = ({ kind }: Entry): string => (kind === 'absence' ? 'Withdraw' : 'Call off');

/** Work that cannot be done as planned: each with the day of the board on which it stands. */
function Planned({ work, zone }: { readonly work: readonly PlannedWork[]; readonly zone: string }) {
  if (work.length === 0) return null;
  return (
    <p className="planned">
      <b>Planned in that time</b>
      {work.map(({ workOrderId, workOrderNumber, title, startsAt }) => (
        <a key={workOrderId} href={`/board?day=${dayOf(Date.parse(startsAt), zone)}`}>
          <span className="num">{workOrderNumber}</span> {title}, {inShopTime(startsAt, zone, today(zone))}
        </a>
      ))}
    </p>
  );
}

/** Drawn for the eye only; the words beside it say the same. */
function StripOf({ span, strip, now }: { readonly span: Span; readonly strip: Strip; readonly now: number }) {
  const place = onStrip(span, strip);
  const percent = (at: number): string => `${((at - strip.from) / (strip.to - strip.from)) * 100}%`;
  return (
    <div className="strip" aria-hidden="true">
      {strip.closed.map((at) => (
        <i key={at} className="closed" style={{ left: percent(at) }} />
      ))}
      {place && <i className="gone" style={{ left: `${place.left}%`, width: `max(5px, ${place.width}%)` }} />}
      {strip.from <= now && now < strip.to && <i className="now" style={{ left: percent(now) }} />}
    </div>
  );
}

interface UndoProps {
  readonly entry: Entry;
  readonly words: string;
  readonly onUndo: () => void;
  readonly onClose: () => void;
}

function UndoSlip({ entry, words, onUndo, onClose }: UndoProps) {
  const what = entry.kind === 'absence' ? 'Withdraw this absence?' : 'Call this off?';
  return (
    <Dialog title={what} onClose={onClose} className="times-slip">
      <p>
        {entry.name}, {words}. {plannedWords(entry.of.planned)}
      </p>
      <div className="acts">
        <button type="button" className="button main" onClick={onUndo}>
          {undoWord(entry)}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Back
        </button>
      </div>
    </Dialog>
  );
}
