import { refusalWords } from '../ui/refusal.js';
import type { Computed } from './use-prices.js';

/** A computation that failed says so where its figure would stand, and offers to ask again. */
export function Unanswered({ of, what }: { readonly of: Computed<unknown>; readonly what: string }) {
  return (
    <div role="alert">
      {of.fault && (
        <div className="refusal">
          <b>{what} could not be worked out.</b> {refusalWords(of.fault)} Your ticks stay.{' '}
          <button type="button" className="plain" onClick={of.again}>
            Ask again
          </button>
        </div>
      )}
    </div>
  );
}
