interface FormActsProps {
  readonly word: string;
  readonly busy: boolean;
  readonly onCancel: () => void;
}

export function FormActs({ word, busy, onCancel }: FormActsProps) {
  return (
    <div className="acts">
      <button type="submit" className="button main" disabled={busy}>
        {busy ? 'One moment' : word}
      </button>
      <button type="button" className="button" onClick={onCancel}>
        Back
      </button>
      <span className="hint">
        <kbd>Ctrl</kbd> <kbd>Enter</kbd> saves
      </span>
    </div>
  );
}
