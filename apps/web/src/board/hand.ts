import type { KeyboardEvent, MouseEvent, PointerEvent, RefObject } from 'react';
import type { Board, Ticket } from '../api/types.js';
import { type Axis, type Place, QUARTER, placeIn } from './axis.js';
import { followDrag, liftOnHold, trackAt } from './gestures.js';
import { inTheWay } from './in-the-way.js';
import { isMovable } from './look.js';
import { nudge, placeAt, samePlace } from './placing.js';

import { lengthOf } from './print.js';
import { clockTime } from './zone-time.js';

/** The ticket in the hand. */
export interface Held {
  readonly workOrderId: string;
  readonly by: 'keys' | 'pointer';
  readonly origin: Place | null;
  /** Where it would lie if it were put down now; null while it hovers over nothing. */
  readonly place: Place | null;
  /** Milliseconds. */
  readonly length: number;
}

/** What the hand works on; renewed at every drawing of the page. */
export interface Floor {
  readonly board: Board;
  readonly axis: Axis;
  readonly now: number;
  readonly mayPlan: boolean;
  readonly root: RefObject<HTMLElement | null>;
  readonly say: (words: string) => void;
  /** Put down in another place. A ticket that had none yet needs a technician as well. */
  readonly onPut: (ticket: Ticket, place: Place) => void;
}

/** The click that follows a drag, a long touch or a key comes within this time and must not open the ticket. */
const SWALLOW_MS = 400;

/**
 * Moving tickets by mouse, by keys, or by picking one up and tapping a place, which needs no dragging (WCAG 2.2,
 * criterion 2.5.7). A ticket's own element stays where it is and becomes the outline that it was lifted from: an element
 * that changed its parent would be re-created, and lose focus and pointer capture in the middle of the move.
 */
export class FloorHand {
  floor!: Floor;
  #held: Held | null = null;
  #swallowUntil = 0;
  readonly #listeners = new Set<() => void>();

  readonly held = (): Held | null => this.#held;
  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  #show(held: Held | null): void {
    if ((held === null) !== (this.#held === null)) {
      if (held) addEventListener('keydown', this.#onWindowKey, true);
      else removeEventListener('keydown', this.#onWindowKey, true);
    }
    this.#held = held;
    for (const listener of this.#listeners) listener();
  }

  readonly letGo = (): void => this.#show(null);

  #ticketOf(held: Held): Ticket | undefined {
    return this.floor.board.tickets.find((ticket) => ticket.workOrderId === held.workOrderId);
  }

  #lift(ticket: Ticket, by: Held['by'], place: Place | null): void {
    const origin = placeIn(ticket.assignment);
    this.#show({ workOrderId: ticket.workOrderId, by, origin, place, length: lengthOf(ticket) * 1000 });
  }

  /** Into the hand, to be moved by keys or put down by a tap. Says why when it may not be moved. */
  readonly pickUp = (ticket: Ticket): void => {
    const { mayPlan, say, board, axis, now } = this.floor;
    if (!mayPlan) {
      say('The front desk and the manager move tickets.');
      return;
    }
    if (!isMovable(ticket)) {
      say(`${ticket.workOrderNumber} is running or done, and stays where it is.`);
      return;
    }
    const bay = board.bays.find((candidate) => candidate.outOfServiceReason === null) ?? board.bays[0];
    if (!bay) return;
    const soon = Math.max(axis.from, Math.ceil(now / QUARTER) * QUARTER);
    const length = lengthOf(ticket) * 1000;
    this.#lift(ticket, 'keys', placeIn(ticket.assignment) ?? placeAt(axis, bay.id, soon, length));
    say(
      `${ticket.workOrderNumber} picked up. Tap a place on a bay, or use the arrow keys and Enter. Escape puts it back.`,
    );
  };

  readonly putBack = (): void => {
    const ticket = this.#held && this.#ticketOf(this.#held);
    this.#show(null);
    if (ticket) this.floor.say(`${ticket.workOrderNumber} put back.`);
  };

  #hover(held: Held, place: Place): void {
    const ticket = this.#ticketOf(held);
    this.#show({ ...held, place });
    if (ticket) this.floor.say(hoverWords(this.floor.board, ticket, place));
  }

  #putDown(held: Held, place: Place | null): void {
    const ticket = this.#ticketOf(held);
    this.#show(null);
    if (!ticket) return;
    if (!place || (held.origin && samePlace(held.origin, place))) {
      this.floor.say(`${ticket.workOrderNumber} lies where it was.`);
    } else this.floor.onPut(ticket, place);
  }

  readonly onPointerDown = (event: PointerEvent<HTMLElement>, ticket: Ticket): void => {
    if (event.button !== 0 || this.#held || !this.floor.mayPlan || !isMovable(ticket)) return;
    if (event.pointerType !== 'touch') {
      this.#drag(event, ticket);
      return;
    }
    // The finger may rest as long as it likes: its release must neither open the ticket nor put it down.
    liftOnHold(event.currentTarget, event, {
      lift: () => {
        this.#swallowUntil = Number.POSITIVE_INFINITY;
        this.pickUp(ticket);
      },
      released: () => this.#swallowNextClick(),
    });
  };

  #drag(event: PointerEvent<HTMLElement>, ticket: Ticket): void {
    const origin = placeIn(ticket.assignment);
    const pressed = this.#under(event.clientX, event.clientY);
    const grip = pressed && origin ? pressed.at - origin.startsAt : 0;
    let lifted = false;
    followDrag(event.currentTarget, event, {
      moved: (x, y) => {
        if (!lifted) this.#lift(ticket, 'pointer', origin);
        lifted = true;
        const over = this.#under(x, y);
        const held = this.#held;
        if (held && over)
          this.#hover(held, placeAt(this.floor.axis, over.bayId, over.at - grip, held.length));
      },
      dropped: (x, y) => {
        this.#swallowNextClick();
        if (this.#held) this.#putDown(this.#held, this.#under(x, y) ? this.#held.place : null);
      },
      cancelled: this.putBack,
    });
  }

  #under(x: number, y: number): { bayId: string; at: number } | null {
    return trackAt(this.floor.root.current, this.floor.axis, x, y);
  }

  /** On a ticket: Enter opens it (a button's own click), the space bar picks it up. */
  readonly onTicketKey = (event: KeyboardEvent<HTMLElement>, ticket: Ticket): void => {
    if (event.key !== ' ' || this.#held) return;
    event.preventDefault();
    this.#swallowNextClick();
    this.pickUp(ticket);
  };

  readonly onTrackClick = (event: MouseEvent<HTMLElement>): void => {
    const held = this.#held;
    if (held?.by !== 'keys' || performance.now() < this.#swallowUntil) return;
    const over = this.#under(event.clientX, event.clientY);
    if (over) this.#putDown(held, placeAt(this.floor.axis, over.bayId, over.at, held.length));
  };

  /** While a ticket is in the hand the keys are its own, wherever the focus went. */
  readonly #onWindowKey = (event: globalThis.KeyboardEvent): void => {
    const held = this.#held;
    if (!held || (event.target instanceof Element && event.target.closest('dialog, [data-own-keys]'))) return;
    if (event.key === 'Escape') this.putBack();
    else if (held.by === 'keys' && (event.key === 'Enter' || event.key === ' ')) {
      this.#swallowNextClick();
      this.#putDown(held, held.place);
    } else {
      const bayIds = this.floor.board.bays.map((bay) => bay.id);
      const next =
        held.by === 'keys' && held.place ? nudge(this.floor.axis, bayIds, held.place, event.key) : null;
      if (!next) return;
      this.#hover(held, next);
    }
    event.preventDefault();
    event.stopPropagation();
  };

  #swallowNextClick(): void {
    this.#swallowUntil = performance.now() + SWALLOW_MS;
  }

  readonly swallowsClick = (): boolean => this.#held !== null || performance.now() < this.#swallowUntil;
}

function hoverWords(board: Board, ticket: Ticket, place: Place): string {
  const bay = board.bays.find((candidate) => candidate.id === place.bayId);
  const [starts, ends] = [place.startsAt, place.endsAt].map((at) => clockTime(at, board.timeZone));
  const other = inTheWay(board.tickets, ticket, place);
  const over = other ? `, over ${other.workOrderNumber}` : '';
  return `${ticket.workOrderNumber} would start ${starts ?? ''} in bay ${bay ? bay.number : '?'}, end ${ends ?? ''}${over}`;
}
