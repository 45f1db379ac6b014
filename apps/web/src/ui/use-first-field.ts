import { type RefObject, useEffect, useRef } from 'react';

/** Puts the focus into the first control of a form that has just appeared, and so brings it into view. */
export function useFirstField(): RefObject<HTMLFormElement | null> {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector<HTMLElement>('input, select, textarea')?.focus(), []);
  return form;
}
