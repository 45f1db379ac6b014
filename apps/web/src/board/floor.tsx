import { StatusLine } from '../ui/status-line.js';
import { Tray } from './tray.js';
import { TimeView } from './time-view.js';
import { type FloorProps, useFloor } from './use-floor.js';
import { clockTime } from './zone-time.js';

/** Everything under the header: the bays, what can start, what waits, and the ticket that is open. */
export function Floor(props: FloorProps) {
  const { inHand, board, person, view } = props;
  const { late, shown, root, saying, opened, ticket, plans, after, leave, lift, onKeyDown } = useFloor(props);
  const { now, sinceBoard } = inHand;
  const lost = inHand.line === 'lost';
  const byTime = view === 'time';
  return (
    <>
      <div className="desk" onKeyDown={onKeyDown}>
        {byTime && <TimeView {...shown} root={root} now={now} lost={lost} />}
        {byTime && <Tray {...shown} />}
        {!byTime && late && <late.ListView {...shown} />}
        {late && <late.Waiting {...shown} />}
      </div>
      <StatusLine
        lost={lost}
        lostWords={`This is the board of ${clockTime(now - sinceBoard, board.timeZone)}. It comes back by itself.`}
        words={saying.words}
        refused={saying.refused}
      >
        {byTime && late && (
          <late.HandHelp held={shown.held !== null} mayPlan={plans} onPutBack={() => shown.hand?.putBack()} />
        )}
      </StatusLine>
      {ticket && late && (
        <late.TicketDialog
          key={ticket.workOrderId}
          {...{ ticket, board, context: shown.context, person, wish: opened?.wish, canLift: byTime }}
          after={after}
          onLift={lift}
          onClose={leave}
        />
      )}
    </>
  );
}
