import type { PlannedWork, PlanWait } from '../api/plan-types.js';
import { type Wall, count, reasonWords, said } from './words.js';

/** Why work has its place and starts no earlier, and whether the plan may move it. */
export function Standing({ work, wall }: { readonly work: PlannedWork; readonly wall: Wall }) {
  // Its time is what a person said it is: then there is one thing to say, not two.
  const isLaidDown = work.waits[0]?.for === 'pin';
  return (
    <>
      {!isLaidDown && <Reasons waits={work.waits} wall={wall} />}
      <p className={isLaidDown ? 'reason' : 'who-placed'}>{placedWords(work)}</p>
    </>
  );
}

/** Who gave it this place, and whether the plan may move it. */
function placedWords({
  isPinned,
  madeBy,
  isOnTheClock,
}: Pick<PlannedWork, 'isPinned' | 'madeBy' | 'isOnTheClock'>): string {
  if (isOnTheClock) return 'What is under way is not moved.';
  if (madeBy === 'person')
    return isPinned
      ? 'A person gave it this place; the plan leaves it there.'
      : 'A person gave it this place; the plan may move it.';
  return isPinned
    ? 'A person keeps it where the plan had put it.'
    : 'The plan gave it this place and may move it.';
}

/** Why work starts no earlier: the reason that decides, the others behind it. */
function Reasons({ waits, wall }: { readonly waits: readonly PlanWait[]; readonly wall: Wall }) {
  const [first, ...more] = waits;
  if (!first) return null;
  return (
    <div className="reasons">
      <Reason wait={first} wall={wall} />
      {more.length > 0 && (
        <details>
          <summary>{count(more.length, 'more reason')}</summary>
          <ul>
            {more.map((wait, n) => (
              <li key={`${wait.for} ${n}`}>
                <Reason wait={wait} wall={wall} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

/** Kinds whose time is that of the work itself, which stands beside it already. */
const TIMELESS: readonly PlanWait['for'][] = ['now', 'started', 'pin', 'plan'];

function Reason({ wait, wall }: { readonly wait: PlanWait; readonly wall: Wall }) {
  const isFree = wait.for === 'now' || wait.for === 'started';
  return (
    <>
      <p className="reason">
        {reasonWords(wait.words, TIMELESS.includes(wait.for) ? null : wait.until, wall)}
        {wait.isOnly && ' Nothing and nobody else would do.'}
      </p>
      {!isFree && (
        <p className="frees">
          <i>What would free it:</i> {said(wait.remedy, wall)}
        </p>
      )}
    </>
  );
}
