import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Board, Ticket } from '../api/types.js';
import { refusalWords } from '../ui/refusal.js';
import type { AfterAct } from './act-bar.js';
import { type Axis, type Place, axisOf } from './axis.js';
import type { View } from './board-header.js';
import { type Person, mayPlan } from './may-plan.js';
import { type PrintContext, tailEnds } from './print.js';
import type { FloorViewProps } from './time-view.js';
import type { BoardInHand } from './use-board.js';
import { useFloorKeys } from './use-floor-keys.js';
import { useHand } from './use-hand.js';
import { useLateParts } from './use-late-parts.js';
import { clockTime, inShopTime } from './zone-time.js';

/** What tickets are printed with and the rule they lie on. */
function usePrinting(board: Board, sinceBoard: number): { context: PrintContext; axis: Axis } {
  const bays = useMemo(() => new Map(board.bays.map((bay) => [bay.id, bay])), [board.bays]);
  const context = useMemo<PrintContext>(
    () => ({
      ...{ zone: board.timeZone, day: board.day, sinceBoard, bays },
      now: Date.parse(board.now) + sinceBoard,
    }),
    [board.timeZone, board.day, board.now, sinceBoard, bays],
  );
  // As text, so that the rule is made anew only when an overrun has reached the next quarter hour.
  const tails = tailEnds(board, sinceBoard).join();
  const axis = useMemo(() => axisOf(board, tails === '' ? [] : tails.split(',').map(Number)), [board, tails]);
  return { context, axis };
}

interface Saying {
  readonly words: string;
  readonly refused: boolean;
  readonly say: (words: string) => void;
  readonly refuse: (words: string) => void;
}

/** The last thing that happened, for the strip at the foot. */
function useSaying(): Saying {
  const [said, setSaid] = useState({ words: '', refused: false });
  const say = useCallback((words: string) => setSaid({ words, refused: false }), []);
  const refuse = useCallback((words: string) => setSaid({ words, refused: true }), []);
  return { ...said, say, refuse };
}

interface Opened {
  readonly workOrderId: string;
  /** Where the ticket was put down that has no technician yet. */
  readonly wish?: Place;
}

/** The ticket that is open, as it is on the board now. */
function useOpened(board: Board): {
  opened: Opened | null;
  ticket: Ticket | undefined;
  open: (workOrderId: string, wish?: Place) => void;
  close: () => void;
} {
  const [opened, setOpened] = useState<Opened | null>(null);
  const ticket = opened ? board.tickets.find((one) => one.workOrderId === opened.workOrderId) : undefined;
  const open = useCallback(
    (workOrderId: string, wish?: Place) => setOpened(wish ? { workOrderId, wish } : { workOrderId }),
    [],
  );
  const close = useCallback(() => setOpened(null), []);
  return { opened, ticket, open, close };
}

/** Puts a ticket down in a new place and says what came of it. */
function useMoving(inHand: BoardInHand, context: PrintContext, saying: Saying) {
  return (ticket: Ticket, place: Place): void => {
    const number = ticket.workOrderNumber;
    saying.say(`${number} put down, asking the server.`);
    void inHand.move(ticket, place).then((fault: ApiFault | null) => {
      if (fault) {
        saying.refuse(`${number} put back. ${inShopTime(refusalWords(fault), context.zone, context.day)}`);
        return;
      }
      const bay = context.bays.get(place.bayId)?.number ?? '?';
      saying.say(`${number} now starts ${clockTime(place.startsAt, context.zone)} in bay ${bay}.`);
    });
  };
}

const afterAct =
  (read: () => Promise<void>, say: (words: string) => void): AfterAct =>
  async (act, words) => {
    const result = await act;
    await read();
    if (!result.ok) return result.fault;
    say(words);
    return null;
  };

export interface FloorProps {
  readonly inHand: BoardInHand;
  readonly board: Board;
  readonly person: Person;
  readonly view: View;
}

/** The floor's state: what is shown, what is in the hand, what is open, and what was said last. */
export function useFloor({ inHand, board, person, view }: FloorProps) {
  const root = useRef<HTMLElement>(null);
  const saying = useSaying();
  const { say } = saying;
  const { context, axis } = usePrinting(board, inHand.sinceBoard);
  const { opened, ticket, open, close } = useOpened(board);
  const late = useLateParts(opened);
  const keys = useFloorKeys(board, root, late?.nearest);
  const moving = useMoving(inHand, context, saying);
  const plans = mayPlan(person);

  const onPut = (put: Ticket, place: Place): void => {
    keys.keepFocusOn(put.workOrderId);
    if (put.assignment) moving(put, place);
    else open(put.workOrderId, place);
  };
  const floor = { board, axis, now: inHand.now, mayPlan: plans, root, say, onPut };
  const { hand, held } = useHand(late?.FloorHand, floor);
  useEffect(() => {
    if (view === 'list') hand?.letGo();
  }, [view, hand]);

  const leave = (): void => {
    if (opened) keys.keepFocusOn(opened.workOrderId);
    close();
  };
  const lift = (lifted: Ticket): void => {
    leave();
    hand?.pickUp(lifted);
  };
  const { tabStop, onFocus, onKeyDown } = keys;
  const shown: FloorViewProps = { board, axis, context, hand, held, tabStop, onOpen: open, onFocus };
  const after = afterAct(inHand.read, say);
  return { root, late, shown, saying, opened, ticket, plans, after, leave, lift, onKeyDown };
}
