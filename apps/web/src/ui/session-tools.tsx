import { type SignedIn, signOut } from '../session/session.js';
import { LightSwitch } from './light-switch.js';
import { roleWords } from './role-words.js';

/** At the right end of a page's head: the light, who is signed in, and the way out. */
export function SessionTools({ session }: { readonly session: SignedIn }) {
  return (
    <div className="tools">
      <LightSwitch />
      <a className="who" href="/sign-in" title="Your session and this tablet">
        {session.staff.displayName}
        <small>{roleWords(session.staff.roles)}</small>
      </a>
      <button type="button" className="plain" onClick={() => void signOut()}>
        Sign out
      </button>
    </div>
  );
}
