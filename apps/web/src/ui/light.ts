import { useSyncExternalStore } from 'react';

/** Day or dim, on <html>, remembered in localStorage. A script of its own sets it before the first paint. */
export type Light = 'day' | 'dim';
const KEY = 'bayledger.light';
const changed = 'bayledger-light';

const current = (): Light => (document.documentElement.dataset.light === 'dim' ? 'dim' : 'day');

export function setLight(light: Light): void {
  document.documentElement.dataset.light = light;
  localStorage.setItem(KEY, light);
  dispatchEvent(new Event(changed));
}

export function useLight(): Light {
  return useSyncExternalStore((listener) => {
    addEventListener(changed, listener);
    return () => removeEventListener(changed, listener);
  }, current);
}
