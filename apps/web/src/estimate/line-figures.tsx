import type { Figures, Line, Prices } from '../api/estimate-types.js';
import { type Money, hoursOf } from './money.js';

interface FiguresProps {
  readonly line: Line;
  readonly isChosen: boolean;
  readonly priced: Prices['lines'][number] | undefined;
  readonly money: Money;
}

/** Both figures of a line, always: what it carries with what is chosen, and what it would cost by itself. */
export function LineFigures({ line, isChosen, priced, money }: FiguresProps) {
  const alone = priced?.alone ?? line.alone;
  const carried = isChosen ? (priced?.figures ?? null) : null;
  const shown = carried ?? alone;
  return (
    <dl className="figures">
      <Row name={`Labour ${hoursOf(shown.hundredths)}`}>{money.full(shown.labourCents)}</Row>
      <Row name="Parts">{money.full(shown.partsCents)}</Row>
      <Row name="Supplies, tax">{money.full(restOf(shown))}</Row>
      <Headline {...{ isChosen, carried, priced, alone, money }} />
    </dl>
  );
}

/** Core deposits, shop supplies and tax: what is in the total beside labour and parts. */
const restOf = (figures: Figures): number => figures.totalCents - figures.labourCents - figures.partsCents;

interface HeadlineProps extends Omit<FiguresProps, 'line'> {
  readonly carried: Figures | null;
  readonly alone: Figures;
}

function Headline({ isChosen, carried, priced, alone, money }: HeadlineProps) {
  const aloneWords = money.full(alone.totalCents);
  if (priced?.workBegun === true)
    return (
      <Row name="Fixed: work has begun" main>
        {aloneWords}
      </Row>
    );
  return (
    <>
      {isChosen ? (
        <Row name="With what is chosen" main>
          {carried ? money.full(carried.totalCents) : '…'}
        </Row>
      ) : (
        <Row name="It would add" main>
          {priced?.ifAddedCents == null ? '…' : money.full(priced.ifAddedCents)}
        </Row>
      )}
      <Row name="Alone">{aloneWords}</Row>
    </>
  );
}

interface RowProps {
  readonly name: string;
  readonly main?: boolean;
  readonly children: string;
}

function Row({ name, main = false, children }: RowProps) {
  return (
    <div className={main ? 'main' : undefined}>
      <dt>{name}</dt>
      <dd className="num">{children}</dd>
    </div>
  );
}
