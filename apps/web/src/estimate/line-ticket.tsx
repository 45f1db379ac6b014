import { inShopTime } from '../board/zone-time.js';
import type { Line, Prices } from '../api/estimate-types.js';
import { MarkWithWord } from '../ui/marks.js';
import { ContingencyList } from './contingency-list.js';
import { LineFigures } from './line-figures.js';
import { LineMore } from './line-more.js';
import type { Money } from './money.js';
import { ratioWords } from './ratio.js';
import { today } from './today.js';
import { answerWord, channelWords, markOf, noChargeWord } from './words.js';
import type { Writing } from './writing.js';

export interface LineTicketProps {
  readonly line: Line;
  readonly siblings: readonly Line[];
  readonly isDraft: boolean;
  readonly isChosen: boolean;
  readonly priced: Prices['lines'][number] | undefined;
  readonly money: Money;
  readonly zone: string;
  readonly onToggle: () => void;
  readonly onWrite: (writing: Writing) => void;
}

/** A line as a ticket: the tick on its stub, what and why on its face, the figures on the part that is torn off. */
export function LineTicket(props: LineTicketProps) {
  const { line, isChosen, priced, money, zone, onToggle } = props;
  const mark = markOf(line);
  const decided = line.decision ? ` ${line.decision.answer}` : '';
  return (
    <article className={`line${isChosen ? ' chosen' : ''}${decided}`} aria-labelledby={`title-${line.id}`}>
      <label className="tick">
        <input
          type="checkbox"
          checked={isChosen}
          disabled={priced?.workBegun ?? false}
          onChange={onToggle}
          aria-labelledby={`title-${line.id}`}
        />
        <span className="num" aria-hidden="true">
          {line.sequence}
        </span>
      </label>
      <div className="line-face">
        <h3 id={`title-${line.id}`}>{line.title}</h3>
        <div className="line-marks">
          {mark && <MarkWithWord mark={mark} />}
          {line.mustInclude && <span className="slip-word">Has to be in</span>}
          {line.decision && (
            <span className="stamp">
              {answerWord[line.decision.answer]} {channelWords[line.decision.channel]}
              <small>{inShopTime(line.decision.decidedAt, zone, today(zone))}</small>
            </span>
          )}
        </div>
        {line.explanation !== null && <p className="why">{line.explanation}</p>}
        {line.consequence !== null && (
          <p className="why">
            <b>If it waits:</b> {line.consequence}
          </p>
        )}
        <Reductions line={line} money={money} />
        <ContingencyList {...props} />
        <LineMore {...props} />
      </div>
      <LineFigures line={line} isChosen={isChosen} priced={priced} money={money} />
    </article>
  );
}

function Reductions({ line, money }: { readonly line: Line; readonly money: Money }) {
  const { discount } = line;
  const off = [
    discount?.labourPpm ? `${ratioWords(discount.labourPpm)} off labour` : '',
    discount?.itemsPpm ? `${ratioWords(discount.itemsPpm)} off parts` : '',
    discount?.itemsCents ? `${money.full(discount.itemsCents)} off parts` : '',
  ].filter(Boolean);
  if (!line.noCharge && off.length === 0) return null;
  return (
    <p className="reduced">
      {line.noCharge && <span className="slip-word">{noChargeWord[line.noCharge]}</span>}
      {discount && off.length > 0 && (
        <span className="slip-word">
          {off.join(', ')}: {discount.reason}
        </span>
      )}
    </p>
  );
}
