import { type KeyboardEvent, type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { Board } from '../api/types.js';

import { isOnDay } from './axis.js';
import { belongsInTray, isUnderWayWithoutBay } from './look.js';

export interface FloorKeys {
  /** The one ticket that the Tab key stops at; arrows go on from there. */
  readonly tabStop: string | undefined;
  readonly onFocus: (workOrderId: string) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLElement>) => void;
  /** Gives the focus back to a ticket that is re-created in another lane, until the answer has come. */
  readonly keepFocusOn: (workOrderId: string) => void;
}

type Nearest = (from: HTMLElement, key: string) => HTMLElement | undefined;

const KEEP_MS = 1500;

/** One tab stop for the whole board, arrow keys from ticket to ticket: by place in a lane, by nearness across lanes. */
export function useFloorKeys(
  board: Board,
  root: RefObject<HTMLElement | null>,
  nearest: Nearest | undefined,
): FloorKeys {
  const [current, setCurrent] = useState<string>();
  const keep = useRef<{ workOrderId: string; until: number } | null>(null);
  const shown = board.tickets.filter(
    (ticket) => isOnDay(ticket, board) || belongsInTray(ticket, board) || isUnderWayWithoutBay(ticket),
  );
  const tabStop = shown.some((ticket) => ticket.workOrderId === current) ? current : shown[0]?.workOrderId;

  useEffect(() => {
    const { workOrderId, until } = keep.current ?? { workOrderId: '', until: 0 };
    if (workOrderId === '' || performance.now() > until || document.activeElement !== document.body) return;
    elementOf(workOrderId, root.current)?.focus({ preventScroll: true });
  });

  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const from = event.target instanceof HTMLElement ? event.target : null;
    if (!from?.matches('.tk') || !event.key.startsWith('Arrow')) return;
    event.preventDefault();
    nearest?.(from, event.key)?.focus();
  };
  const keepFocusOn = useCallback((workOrderId: string) => {
    keep.current = { workOrderId, until: performance.now() + KEEP_MS };
  }, []);
  return { tabStop, onFocus: setCurrent, onKeyDown, keepFocusOn };
}

const elementOf = (workOrderId: string, root: HTMLElement | null): HTMLElement | null => {
  const selector = `[data-ticket="${CSS.escape(workOrderId)}"]`;
  return root?.querySelector<HTMLElement>(selector) ?? document.querySelector<HTMLElement>(selector);
};
