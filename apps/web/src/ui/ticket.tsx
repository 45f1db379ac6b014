import type { Look } from './look-word.js';
import { MarkSign } from './marks.js';
import { LookSign } from './signs.js';

export interface TicketPrint {
  readonly look: Look;
  /** The state in a word. */
  readonly word: string;
  readonly number: string;
  /** Book hours, `2.4 h`. */
  readonly hours: string;
  readonly vehicle: string;
  readonly title: string;
  /** Why it is held, or who it is planned for: the line that a tall ticket has room for. */
  readonly extra: string;
  readonly unsafe: boolean;
  /** Clocked time as a share of the ticket's length, 0 to 1. */
  readonly clocked: number;
  /** How far clocked time sticks out past the ticket, as a share of its length. */
  readonly tail: number;
  /** `+0.7 h`, when it is past book. */
  readonly past: string;
  /** What the drawing says, in words: place, time, state. */
  readonly spoken: string;
}

/** What is printed on a ticket: the same on the board, in the tray and in the hand. */
export function TicketFace({ print }: { readonly print: TicketPrint }) {
  return (
    <>
      <span className="stub">
        <LookSign look={print.look} />
      </span>
      <span className="face">
        <span className="l1">
          <span className="num">{print.number}</span>
          {print.unsafe && (
            <span className="unsafe-flag">
              <MarkSign mark="unsafe" />
              <i>Unsafe</i>
            </span>
          )}
          <span className="num h">{print.hours}</span>
        </span>
        <b className="v">{print.vehicle}</b>
        <span className="j">{print.title}</span>
        {print.extra !== '' && <span className="x">{print.extra}</span>}
        <span className="vh">{`, ${print.word}. ${print.spoken}`}</span>
      </span>
      {print.clocked > 0 && <span className="clk" style={{ width: `${print.clocked * 100}%` }} />}
      {print.past !== '' && (
        <span className={print.tail > 0 ? 'tail' : 'tail inside'} style={{ width: `${print.tail * 100}%` }}>
          <i>{print.past}</i>
        </span>
      )}
    </>
  );
}
