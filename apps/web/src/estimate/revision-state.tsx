import { inShopTime } from '../board/zone-time.js';
import type { Revision } from '../api/estimate-types.js';
import type { Money } from './money.js';
import { today } from './today.js';
import { ratioWords } from './ratio.js';
import { lines, revisionName } from './words.js';

interface StateProps {
  readonly revision: Revision;
  readonly zone: string;
  readonly money: Money;
}

/** Which revision this is, and what has become of it. */
export function RevisionState({ revision, zone, money }: StateProps) {
  const said = (instant: string): string => inShopTime(instant, zone, today(zone));
  const approved = revision.lines.filter((line) => line.decision?.answer === 'approved').length;
  const open = revision.lines.filter((line) => line.decision === null).length;
  const off = discountWords(revision.orderDiscount, money);
  return (
    <header className="lines-head">
      <h2 id="lines-title">{revisionName(revision)}</h2>
      <p>
        {revision.sentAt === null ? (
          'Nobody sees it until it is sent.'
        ) : (
          <>
            Sent {said(revision.sentAt)}
            {revision.sentBy !== null && ` by ${revision.sentBy}`}
            {revision.validUntil !== null && `, holds until ${said(revision.validUntil)}`}.{' '}
            {approved > 0 && (
              <>
                {lines(approved)} approved, <span className="num">{money.full(revision.approvedCents)}</span>
                .{' '}
              </>
            )}
            {open > 0 && `${lines(open)} without an answer.`}
          </>
        )}
      </p>
      {off !== '' && <p className="slip-word">{off}</p>}
    </header>
  );
}

/** What is taken off the whole revision, and why. */
function discountWords(discount: Revision['orderDiscount'], money: Money): string {
  if (!discount) return '';
  const { labourPpm, itemsPpm, cents, reason } = discount;
  const parts = [
    labourPpm === null ? '' : `${ratioWords(labourPpm)} off labour`,
    itemsPpm === null ? '' : `${ratioWords(itemsPpm)} off parts`,
    cents === null ? '' : `${money.full(cents)} off all of it`,
  ].filter(Boolean);
  return `${parts.join(', ')}: ${reason}`;
}
