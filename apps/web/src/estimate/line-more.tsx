import type { Line } from '../api/estimate-types.js';
import { useLateParts } from './late.js';
import type { LineTicketProps } from './line-ticket.js';

/** What is folded away: how the price came about, what the line is made of, why it ranks where it does; and the pen. */
export function LineMore({ line, siblings, isDraft, isChosen, priced, money, onWrite }: LineTicketProps) {
  const late = useLateParts();
  const explained = isChosen ? (priced?.breakdown ?? line.breakdown) : line.breakdown;
  return (
    <div className="line-more">
      <details>
        <summary>How it came about</summary>
        {late && <late.Breakdown node={explained} money={money} />}
      </details>
      <details>
        <summary>Made of</summary>
        {late && <late.MadeOf line={line} siblings={siblings} />}
      </details>
      {isDraft && (
        <p className="pen">
          <PenButton line={line} word="Change" onPress={() => onWrite({ kind: 'line', line })} />
          <PenButton
            line={line}
            word="Contingency"
            onPress={() => onWrite({ kind: 'contingency', line, contingency: null })}
          />
          <PenButton line={line} word="Take out" onPress={() => onWrite({ kind: 'remove-line', line })} />
        </p>
      )}
    </div>
  );
}

interface PenProps {
  readonly line: Line;
  readonly word: string;
  readonly onPress: () => void;
}

function PenButton({ line, word, onPress }: PenProps) {
  return (
    <button type="button" className="plain" onClick={onPress}>
      {word}
      <span className="vh">: {line.title}</span>
    </button>
  );
}
