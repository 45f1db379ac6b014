import type { PointerEvent } from 'react';
import type { Axis } from './axis.js';
import { instantAt } from './placing.js';

const DRAG_PX = 8;
const HOLD_MS = 400;

/** The bay and the instant under a point of the screen; null beside the lanes. */
export function trackAt(
  root: HTMLElement | null,
  axis: Axis,
  x: number,
  y: number,
): { bayId: string; at: number } | null {
  for (const track of root?.querySelectorAll<HTMLElement>('[data-bay]') ?? []) {
    const box = track.getBoundingClientRect();
    if (y >= box.top && y < box.bottom && x >= box.left - 40 && x <= box.right + 40) {
      return { bayId: track.dataset.bay ?? '', at: instantAt(axis, (x - box.left) / box.width) };
    }
  }
  return null;
}

const farFrom = (down: PointerEvent, event: globalThis.PointerEvent): boolean =>
  Math.hypot(event.clientX - down.clientX, event.clientY - down.clientY) >= DRAG_PX;

/**
 * A finger scrolls the page; held still for a moment it picks the ticket up, and the next tap puts it down. The browser's
 * own long press, which asks for a context menu, means the same and may come first on a busy device.
 */
export function liftOnHold(
  element: HTMLElement,
  down: PointerEvent,
  { lift, released }: { readonly lift: () => void; readonly released: () => void },
): void {
  const held = (): void => {
    stop();
    if ('vibrate' in navigator) navigator.vibrate(20);
    for (const end of ['pointerup', 'pointercancel'] as const)
      addEventListener(end, released, { once: true });
    lift();
  };
  const timer = window.setTimeout(held, HOLD_MS);
  const moved = (event: globalThis.PointerEvent): void => {
    if (farFrom(down, event)) stop();
  };
  const stop = (): void => {
    window.clearTimeout(timer);
    element.removeEventListener('pointermove', moved);
    element.removeEventListener('contextmenu', held);
    element.removeEventListener('pointerup', stop);
    element.removeEventListener('pointercancel', stop);
  };
  element.addEventListener('pointermove', moved);
  element.addEventListener('contextmenu', held);
  element.addEventListener('pointerup', stop);
  element.addEventListener('pointercancel', stop);
}

export interface Drag {
  readonly moved: (x: number, y: number) => void;
  readonly dropped: (x: number, y: number) => void;
  readonly cancelled: () => void;
}

/** Follows a mouse or pen from the press; nothing is called for a press that does not move. */
export function followDrag(element: HTMLElement, down: PointerEvent, drag: Drag): void {
  let dragging = false;
  const move = (event: globalThis.PointerEvent): void => {
    if (!dragging && !farFrom(down, event)) return;
    if (!dragging) element.setPointerCapture(down.pointerId);
    dragging = true;
    drag.moved(event.clientX, event.clientY);
  };
  const end = (event: globalThis.PointerEvent): void => {
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', end);
    element.removeEventListener('pointercancel', end);
    if (!dragging) return;
    if (event.type === 'pointerup') drag.dropped(event.clientX, event.clientY);
    else drag.cancelled();
  };
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', end);
  element.addEventListener('pointercancel', end);
}
