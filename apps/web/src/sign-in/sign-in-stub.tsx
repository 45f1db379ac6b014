/** The torn-off end of the ticket: a bolt head that carries its witness mark. */
export function SignInStub() {
  return (
    <div className="big-stub" aria-hidden="true">
      <svg viewBox="0 0 120 120">
        <path
          d="M60 12 101.6 36v48L60 108 18.4 84V36z"
          fill="none"
          stroke="currentColor"
          strokeWidth="9"
          strokeLinejoin="round"
        />
        <circle cx="60" cy="60" r="21" fill="none" stroke="currentColor" strokeWidth="5" />
        <path d="M60 62 101 6" stroke="var(--pen)" strokeWidth="15" />
      </svg>
    </div>
  );
}
