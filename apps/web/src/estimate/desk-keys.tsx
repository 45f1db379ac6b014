import { useEffect } from 'react';

/** Marks the element that a function key leads to: `data-key="F2"`. */
const KEYS = ['F2', 'F8', 'F9'] as const;

/** The keys of the desk, and what they do: each leads to the part of the page that carries its name. */
export function DeskKeys() {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector('dialog[open]')) return;
      const key = KEYS.find((one) => one === event.key);
      const target = key && document.querySelector<HTMLElement>(`[data-key="${key}"]`);
      if (!target) return;
      event.preventDefault();
      if (target instanceof HTMLButtonElement) target.click();
      else {
        target.focus();
        target.scrollIntoView({ block: 'center' });
      }
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, []);
  return (
    <div className="keys">
      <span>
        <kbd>↑</kbd>
        <kbd>↓</kbd> next line
      </span>
      <span>
        <kbd>Space</kbd> choose it
      </span>
      <span>
        <kbd>F2</kbd> what can be spent
      </span>
      <span>
        <kbd>F8</kbd> write a line
      </span>
      <span>
        <kbd>F9</kbd> send
      </span>
    </div>
  );
}
