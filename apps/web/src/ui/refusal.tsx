import type { ApiFault } from '../api/fault.js';

/** What went wrong and what to do, on a torn strip; read out at once. Empty when there is nothing to say. */
export function Refusal({
  title,
  detail,
}: {
  readonly title?: string;
  readonly detail?: string | undefined;
}) {
  return (
    <div role="alert">
      {detail !== undefined && (
        <div className="refusal">
          {title !== undefined && <b>{title}</b>} {detail}
        </div>
      )}
    </div>
  );
}

function holderName(facts: Readonly<Record<string, unknown>> | undefined): string | undefined {
  const holder = facts?.holder;
  if (typeof holder !== 'object' || holder === null || !('displayName' in holder)) return undefined;
  return typeof holder.displayName === 'string' ? holder.displayName : undefined;
}

/** The server's own sentence, completed with who holds the thing and with the remedy that the page knows. */
export function refusalWords(fault: ApiFault, what = 'board'): string {
  if (fault.status === 412)
    return `Somebody changed it first. The ${what} has been read again: look, then try once more.`;
  const holder = holderName(fault.facts);
  return holder === undefined || fault.detail.includes(holder)
    ? fault.detail
    : `${fault.detail} It is with ${holder}.`;
}
