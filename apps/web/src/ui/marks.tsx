/** Bolt-head condition marks: the worse it is, the more ink; the last one has sheared. The word always stands beside. */
export type Mark = 'sound' | 'watch' | 'repair' | 'unsafe' | 'unseen';

export const markWord: Readonly<Record<Mark, string>> = {
  sound: 'Sound',
  watch: 'Watch',
  repair: 'Repair',
  unsafe: 'Unsafe',
  unseen: 'Not seen',
};

const head = 'M12 1.8 20.8 6.9v10.2L12 22.2 3.2 17.1V6.9z';

export function MarkSign({ mark }: { readonly mark: Mark }) {
  return (
    <svg className="mark" viewBox="0 0 24 24" aria-hidden="true">
      {mark === 'unsafe' ? (
        <g fill="currentColor">
          <path transform="translate(-1.3 1.1)" d="M12 .6 13 1.2 9.4 9.6l4.2 2.9-4.1 8.2L2.1 17.7V6.3z" />
          <path transform="translate(1.3 -1.1)" d="M15.2 2.4 21.9 6.3v11.4L12.3 23.3l4.2-11.9-4.2-2.9z" />
        </g>
      ) : (
        <path
          d={head}
          fill={mark === 'repair' ? 'currentColor' : mark === 'unseen' ? 'none' : 'var(--sheet)'}
          stroke="currentColor"
          strokeWidth="2.2"
          strokeDasharray={mark === 'unseen' ? '3.4 3' : undefined}
        />
      )}
      {mark === 'watch' && <path d="M3.2 12h17.6v5.1L12 22.2 3.2 17.1z" fill="currentColor" />}
    </svg>
  );
}

export function MarkWithWord({ mark }: { readonly mark: Mark }) {
  return (
    <span className={`mark-word ${mark}`}>
      <MarkSign mark={mark} />
      {markWord[mark]}
    </span>
  );
}
