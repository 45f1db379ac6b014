import { useCallback, useState, useSyncExternalStore } from 'react';
import type { View } from './board-header.js';
import { isDay } from './zone-time.js';

const narrow = matchMedia('(max-width: 899.98px)');
const VIEW = 'bayledger.board-view';

/** Below this width tickets are too short to read: the board is a list there. */
export function useNarrow(): boolean {
  return useSyncExternalStore(
    (listener) => {
      narrow.addEventListener('change', listener);
      return () => narrow.removeEventListener('change', listener);
    },
    () => narrow.matches,
  );
}

const rememberedView = (): View => (localStorage.getItem(VIEW) === 'list' ? 'list' : 'time');
export const startsAsList = (): boolean => narrow.matches || rememberedView() === 'list';

/** By time or as a list, remembered on this device. */
export function useView(): [View, (view: View) => void] {
  const [view, setView] = useState<View>(rememberedView);
  const choose = useCallback((next: View) => {
    localStorage.setItem(VIEW, next);
    setView(next);
  }, []);
  return [view, choose];
}

/** The day in the address, so that a reload and a bookmark keep it; without one it is today, also after midnight. */
export function useDay(today: string): [string, (day: string) => void] {
  const [chosen, setChosen] = useState<string | null>(() => {
    const day = new URLSearchParams(location.search).get('day');
    return isDay(day) ? day : null;
  });
  const choose = useCallback(
    (day: string) => {
      const next = day === today ? null : day;
      history.replaceState(null, '', next === null ? location.pathname : `?day=${next}`);
      setChosen(next);
    },
    [today],
  );
  return [chosen ?? today, choose];
}
