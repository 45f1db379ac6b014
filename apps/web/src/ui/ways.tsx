import type { SignedIn } from '../session/session.js';

type Readers = 'everybody' | 'desk' | 'lead';

/** The pages of the staff, in the order of a day at the desk; a new page is one more row. */
const PAGES: readonly (readonly [path: string, words: string, readers: Readers])[] = [
  ['/board', 'Job board', 'everybody'],
  ['/plan', 'The plan', 'everybody'],
  ['/when', 'When?', 'desk'],
  ['/estimate', 'Estimates', 'desk'],
  ['/calendar', 'Times', 'everybody'],
  ['/what-if', 'What if', 'lead'],
];

const LEAD: readonly string[] = ['manager', 'administrator'];

function isFor(readers: Readers, roles: readonly string[]): boolean {
  if (readers === 'everybody') return true;
  return roles.some((role) => LEAD.includes(role) || (readers === 'desk' && role === 'front-desk'));
}

/** Links to the other pages that this person may open. */
export function Ways({ session, here }: { readonly session: SignedIn; readonly here: string }) {
  return PAGES.map(
    ([path, words, readers]) =>
      path !== here &&
      isFor(readers, session.staff.roles) && (
        <a key={path} href={path}>
          {words}
        </a>
      ),
  );
}
