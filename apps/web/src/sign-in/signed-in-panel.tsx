import type { Device } from '../session/device.js';
import { type SignedIn, signOut } from '../session/session.js';
import { roleWords } from '../ui/role-words.js';
import { SignInStub } from './sign-in-stub.js';
import { ThisTablet } from './this-tablet.js';

interface PanelProps {
  readonly session: SignedIn;
  readonly device: Device | null;
  readonly onDevice: (device: Device | null) => void;
  readonly onGo: () => void;
}

/** For somebody who is signed in already: on to the board, out, and, for a manager, this tablet. */
export function SignedInPanel({ session, device, onDevice, onGo }: PanelProps) {
  const manages = session.staff.roles.some((role) => role === 'manager' || role === 'administrator');
  return (
    <main className="sign-in-main">
      <section className="stub-sheet">
        <SignInStub />
        <div className="panel">
          <h1>{session.staff.displayName}</h1>
          <p className="notice">Signed in as {roleWords(session.staff.roles).toLowerCase()}.</p>
          <button type="button" className="button main wide" onClick={onGo}>
            To the job board
          </button>
          <button type="button" className="button wide" onClick={() => void signOut()}>
            Sign out
          </button>
        </div>
      </section>
      {manages && <ThisTablet shopName={session.shop.name} device={device} onDevice={onDevice} />}
    </main>
  );
}
