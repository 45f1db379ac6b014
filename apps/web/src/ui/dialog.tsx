import { type ReactNode, useEffect, useId, useRef } from 'react';

interface DialogProps {
  readonly title: ReactNode;
  readonly onClose: () => void;
  readonly children: ReactNode;
  readonly className?: string;
}

/** The browser's own modal dialog: it keeps the focus inside, closes on Escape and gives the focus back. */
export function Dialog({ title, onClose, children, className = '' }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className={`slip ${className}`}
      aria-labelledby={heading}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onClick={(event) => {
        if (event.target === dialog.current) onClose();
      }}
    >
      <div className="slip-page">
        <header className="slip-head">
          <h2 id={heading}>{title}</h2>
          <button type="button" className="plain close" onClick={onClose}>
            Close
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
