import { useEffect, useMemo, useSyncExternalStore } from 'react';
import type { Floor, FloorHand, Held } from './hand.js';

const nothing = (): null => null;
const quiet = (): (() => void) => () => undefined;

/** One hand per board, once its code is there. It reads the floor as last drawn. */
export function useHand(
  Hand: (new () => FloorHand) | undefined,
  floor: Floor,
): { hand: FloorHand | null; held: Held | null } {
  const hand = useMemo(() => (Hand ? new Hand() : null), [Hand]);
  const held = useSyncExternalStore(hand?.subscribe ?? quiet, hand?.held ?? nothing);
  useEffect(() => {
    if (hand) hand.floor = floor;
  });
  useEffect(() => () => hand?.letGo(), [hand]);
  return { hand, held };
}
