import type { Order, Revision } from '../api/estimate-types.js';
import type { Writing } from './writing.js';

interface WriteBarProps {
  readonly order: Order;
  readonly revision: Revision | undefined;
  readonly onWrite: (writing: Writing) => void;
}

/** What can be written now. A line for a sent revision begins the next one. */
export function WriteBar({ order, revision, onWrite }: WriteBarProps) {
  if (order.stage === 'picked-up') return null;
  const draft = revision?.state === 'draft' ? revision : null;
  return (
    <div className="write-bar">
      <button
        type="button"
        className="button"
        data-key="F8"
        onClick={() => onWrite({ kind: 'line', line: null })}
      >
        {revision?.state === 'sent' ? 'Write a line for the next revision' : 'Write a line'} <kbd>F8</kbd>
      </button>
      {draft && draft.lines.length > 0 && (
        <>
          <button
            type="button"
            className="button"
            onClick={() => onWrite({ kind: 'order-discount', revision: draft })}
          >
            Discount on all of it
          </button>
          <button
            type="button"
            className="button main"
            data-key="F9"
            onClick={() => onWrite({ kind: 'send', revision: draft })}
          >
            Send revision {draft.number} <kbd>F9</kbd>
          </button>
        </>
      )}
      {revision?.state === 'sent' && (
        <button type="button" className="button" onClick={() => onWrite({ kind: 'link', revision })}>
          Make a further link
        </button>
      )}
    </div>
  );
}
