import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Board, Ticket } from '../api/types.js';
import { refusalWords } from '../ui/refusal.js';
import { StatusLine } from '../ui/status-line.js';
import type { AfterAct } from './act-bar.js';
import { type Person, mayPlan } from './acts.js';
import { type Place, axisOf } from './axis.js';
import { Tray, Waiting } from './below.js';
import type { View } from './board-header.js';
import { HandHelp } from './hand-help.js';
import { ListView } from './list-view.js';

import { type PrintContext, tailEnds } from './print.js';
import { TicketDialog } from './ticket-dialog.js';
import { TimeView } from './time-view.js';
import type { BoardInHand } from './use-board.js';
import { useFloorKeys } from './use-floor-keys.js';
import { useHand } from './use-hand.js';
import { clockTime } from './zone-time.js';

interface FloorProps {
  readonly inHand: BoardInHand;
  readonly board: Board;
  readonly person: Person;
  readonly view: View;
}
interface Said {
  readonly words: string;
  readonly refused: boolean;
}
interface Opened {
  readonly workOrderId: string;
  readonly wish?: Place;
}

/** Everything under the header: the bays, what can start, what waits, and the ticket that is open. */
export function Floor({ inHand, board, person, view }: FloorProps) {
  const { now, sinceBoard, read, move } = inHand;
  const root = useRef<HTMLElement>(null);
  const [said, setSaid] = useState<Said>({ words: '', refused: false });
  const [opened, setOpened] = useState<Opened | null>(null);
  const say = useCallback((words: string) => setSaid({ words, refused: false }), []);
  const context = useMemo<PrintContext>(
    () => ({ zone: board.timeZone, day: board.day, sinceBoard, bays: new Map(board.bays.map((bay) => [bay.id, bay])) }),
    [board.timeZone, board.day, board.bays, sinceBoard],
  );
  const tails = tailEnds(board, sinceBoard).join();
  const axis = useMemo(() => axisOf(board, tails === '' ? [] : tails.split(',').map(Number)), [board, tails]);
  const keys = useFloorKeys(board, root);

  const onPut = (ticket: Ticket, place: Place): void => {
    keys.keepFocusOn(ticket.workOrderId);
    if (!ticket.assignment) return setOpened({ workOrderId: ticket.workOrderId, wish: place });
    say(`${ticket.workOrderNumber} put down, asking the server.`);
    void move(ticket, place).then((fault) => {
      if (fault) setSaid({ words: `${ticket.workOrderNumber} put back. ${refusalWords(fault)}`, refused: true });
      else say(`${ticket.workOrderNumber} now starts ${clockTime(place.startsAt, board.timeZone)} in bay ${context.bays.get(place.bayId)?.number ?? '?'}.`);
    });
  };
  const { hand, held } = useHand({ board, axis, now, mayPlan: mayPlan(person), root: root.current, say, onPut });
  useEffect(() => {
    if (view === 'list') hand.letGo();
  }, [view, hand]);

  const after: AfterAct = async (act, words) => {
    const result = await act;
    await read();
    if (!result.ok) return result.fault;
    say(words);
    return null;
  };
  const openedTicket = opened && board.tickets.find((ticket) => ticket.workOrderId === opened.workOrderId);
  const open = useCallback((workOrderId: string) => setOpened({ workOrderId }), []);
  const close = (): void => {
    if (opened) keys.keepFocusOn(opened.workOrderId);
    setOpened(null);
  };
  const view_ = { board, axis, context, hand, held, tabStop: keys.tabStop, onOpen: open, onFocus: keys.onFocus };
  return (
    <>
      <div className="desk" onKeyDown={keys.onKeyDown}>
        {view === 'time' ? (
          <>
            <TimeView {...view_} root={root} now={now} lost={inHand.line === 'lost'} />
            <Tray {...view_} />
          </>
        ) : (
          <ListView board={board} context={context} onOpen={open} />
        )}
        <Waiting board={board} context={context} onOpen={open} />
      </div>
      <StatusLine
        lost={inHand.line === 'lost'}
        lostWords={`This is the board of ${clockTime(now - sinceBoard, board.timeZone)}. It comes back by itself.`}
        words={said.words}
        refused={said.refused}
      >
        {view === 'time' && <HandHelp held={held !== null} mayPlan={mayPlan(person)} onPutBack={hand.putBack} />}
      </StatusLine>
      {openedTicket && (
        <TicketDialog
          key={openedTicket.workOrderId}
          ticket={openedTicket}
          board={board}
          context={context}
          person={person}
          wish={opened.wish}
          canLift={view === 'time'}
          after={after}
          onLift={(ticket) => {
            close();
            hand.pickUp(ticket);
          }}
          onClose={close}
        />
      )}
    </>
  );
}

