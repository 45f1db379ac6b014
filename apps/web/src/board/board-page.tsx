import { SignedInOnly } from '../session/gate.js';
import type { SignedIn } from '../session/session.js';
import { SheetPage } from '../ui/sheet-page.js';
import { BoardHeader } from './board-header.js';
import { Floor } from './floor.js';
import { useBoard } from './use-board.js';
import { usePlanWords } from './use-plan-words.js';
import { useDay, useNarrow, useView } from './use-screen.js';
import { dayOf } from './zone-time.js';

/** The job board of whoever is signed in. */
export function BoardPage() {
  return (
    <SignedInOnly what="The board" blank={<BlankBoard />}>
      {(session) => <SignedInBoard session={session} />}
    </SignedInOnly>
  );
}

/** The paper before anything is printed on it: same heights, so that nothing jumps. */
function BlankBoard() {
  return (
    <div className="page" aria-busy="true">
      <header className="top" />
      <main className="floor blank" aria-label="Reading the board" />
    </div>
  );
}

function SignedInBoard({ session }: { readonly session: SignedIn }) {
  const today = dayOf(Date.now(), session.shop.timeZone);
  const [day, setDay] = useDay(today);
  const [view, setView] = useView();
  const narrow = useNarrow();
  const inHand = useBoard(day);
  const { board, fault } = inHand;
  const planWords = usePlanWords(board?.now);
  return (
    <div className={`page${inHand.turning ? ' turning' : ''}`}>
      <BoardHeader
        session={session}
        day={day}
        today={board ? dayOf(inHand.now, board.timeZone) : today}
        onDay={setDay}
        view={view}
        onView={narrow ? undefined : setView}
        planWords={planWords}
      />
      {board && <Floor inHand={inHand} board={board} person={session.staff} view={narrow ? 'list' : view} />}
      {!board && !fault && <main className="floor blank" aria-label="Reading the board" aria-busy="true" />}
      {!board && fault && (
        <SheetPage
          title={fault.code === 'line-lost' ? 'The server does not answer' : 'The board cannot be shown'}
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
