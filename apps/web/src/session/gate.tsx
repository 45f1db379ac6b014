import { type ReactNode, useEffect } from 'react';
import { SheetPage } from '../ui/sheet-page.js';
import { type SignedIn, resume, useSession } from './session.js';

interface GateProps {
  /** What comes back when the server is reached again: "The board". */
  readonly what: string;
  /** The paper before anything is printed on it. */
  readonly blank: ReactNode;
  readonly children: (session: SignedIn) => ReactNode;
}

/** A page of whoever is signed in; anybody else goes to the sign-in page and comes back from there. */
export function SignedInOnly({ what, blank, children }: GateProps) {
  const session = useSession();
  useEffect(() => void resume(), []);
  const gone = session.kind === 'signed-out' ? session.why : null;
  useEffect(() => {
    if (gone === null) return;
    // Back to this page after an interruption; whoever left on purpose is perhaps followed by somebody else. The board is
    // where a sign-in leads anyway.
    const returns = gone !== 'left' && location.pathname !== '/board';
    const back = returns ? `&next=${encodeURIComponent(location.pathname + location.search)}` : '';
    location.replace(`/sign-in?why=${gone}${back}`);
  }, [gone]);

  if (session.kind === 'signed-in') return children(session);
  if (session.kind !== 'line-lost') return blank;
  return (
    <SheetPage title="The server does not answer">
      <p>{what} comes back when this device reaches the server again. Check its network, then try again.</p>
      <button type="button" className="button main" onClick={() => void resume()}>
        Try again
      </button>
    </SheetPage>
  );
}
