interface HandHelpProps {
  readonly held: boolean;
  readonly mayPlan: boolean;
  readonly onPutBack: () => void;
}

/** What the keys do at this moment. */
export function HandHelp({ held, mayPlan, onPutBack }: HandHelpProps) {
  if (!held) {
    return (
      <p className="keys">
        <span className="touch-hint">{mayPlan ? 'Tap to open, hold to pick up' : 'Tap to open'}</span>
        <span>
          <kbd>Enter</kbd> open
        </span>
        {mayPlan && (
          <span>
            <kbd>Space</kbd> pick up
          </span>
        )}
        <span>
          <kbd>←</kbd>
          <kbd>→</kbd>
          <kbd>↑</kbd>
          <kbd>↓</kbd> next ticket
        </span>
      </p>
    );
  }
  return (
    <p className="keys" data-own-keys>
      <span>
        <kbd>←</kbd>
        <kbd>→</kbd> 15 minutes
      </span>
      <span>
        <kbd>↑</kbd>
        <kbd>↓</kbd> bay
      </span>
      <span>
        <kbd>Enter</kbd> put down
      </span>
      <button type="button" onClick={onPutBack}>
        <kbd>Esc</kbd> Put back
      </button>
    </p>
  );
}
