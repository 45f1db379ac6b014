import { useEffect, useState, useSyncExternalStore } from 'react';
import { type Floor, FloorHand, type Held } from './hand.js';

/** One hand per board. It reads the floor as last drawn. */
export function useHand(floor: Floor): { hand: FloorHand; held: Held | null } {
  const [hand] = useState(() => new FloorHand());
  const held = useSyncExternalStore(hand.subscribe, hand.held);
  useEffect(() => {
    hand.floor = floor;
  });
  useEffect(() => () => hand.letGo(), [hand]);
  return { hand, held };
}
