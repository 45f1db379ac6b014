import { type KeyboardEvent, type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { Board } from '../api/types.js';

import { belongsInTray } from './look.js';

export interface FloorKeys {
  /** The one ticket that the Tab key stops at; arrows go on from there. */
  readonly tabStop: string | undefined;
  readonly onFocus: (workOrderId: string) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLElement>) => void;
  /** Gives the focus back to a ticket that is re-created in another lane, until the answer has come. */
  readonly keepFocusOn: (workOrderId: string) => void;
}

const KEEP_MS = 1500;

/** One tab stop for the whole board, arrow keys from ticket to ticket: by place in a lane, by nearness across lanes. */
export function useFloorKeys(board: Board, root: RefObject<HTMLElement | null>): FloorKeys {
  const [current, setCurrent] = useState<string>();
  const keep = useRef<{ workOrderId: string; until: number } | null>(null);
  const shown = board.tickets.filter((ticket) => ticket.assignment ?? belongsInTray(ticket));
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
    nearest(from, event.key)?.focus();
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

/** The next ticket on the screen in the direction of an arrow key. */
function nearest(from: HTMLElement, key: string): HTMLElement | undefined {
  const here = from.getBoundingClientRect();
  const middle = (box: DOMRect): { x: number; y: number } => ({ x: box.x + box.width / 2, y: box.y + box.height / 2 });
  const { x, y } = middle(here);
  const across = key === 'ArrowLeft' || key === 'ArrowRight';
  const sign = key === 'ArrowLeft' || key === 'ArrowUp' ? -1 : 1;
  const away = (element: HTMLElement): number => {
    const to = middle(element.getBoundingClientRect());
    const sameRow = Math.abs(to.y - y) < here.height / 2;
    const ahead = sign * (across ? to.x - x : to.y - y);
    if (ahead <= 1 || across !== sameRow) return Number.POSITIVE_INFINITY;
    return across ? ahead : ahead * 4 + Math.abs(to.x - x);
  };
  return [...document.querySelectorAll<HTMLElement>('.tk[data-ticket]')]
    .map((element) => ({ element, distance: away(element) }))
    .filter(({ distance }) => Number.isFinite(distance))
    .sort((a, b) => a.distance - b.distance)[0]?.element;
}

