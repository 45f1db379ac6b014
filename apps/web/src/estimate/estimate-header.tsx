import { useEffect } from 'react';
import type { SignedIn } from '../session/session.js';
import { SessionTools } from '../ui/session-tools.js';
import { Ways } from '../ui/ways.js';

interface HeaderProps {
  readonly session: SignedIn;
  /** To the list of repair orders; not on the list itself. */
  readonly onFind: (() => void) | undefined;
}

export function EstimateHeader({ session, onFind }: HeaderProps) {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.key !== 'F4' || event.altKey || event.ctrlKey || document.querySelector('dialog[open]'))
        return;
      event.preventDefault();
      onFind?.();
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [onFind]);
  return (
    <header className="top">
      <p className="house">
        {session.shop.name}
        <small>Estimates</small>
      </p>
      <nav className="ways" aria-label="Other pages">
        <Ways session={session} here="/estimate" />
        {onFind && (
          <button type="button" onClick={onFind}>
            Another repair order <kbd>F4</kbd>
          </button>
        )}
      </nav>
      <SessionTools session={session} />
    </header>
  );
}
