import { type Money, hoursOf } from './money.js';

/** One figure and what it was computed from, as the server explains it. */
interface Node {
  readonly figure: string;
  readonly of?: string;
  readonly rule: string;
  readonly cents?: number;
  readonly hundredths?: number;
  readonly inputs: readonly Node[];
}

interface BreakdownProps {
  readonly node: Readonly<Record<string, unknown>>;
  readonly money: Money;
}

/** The tree of a figure: folded, each branch opens to its rule and its inputs, down to what was entered. */
export function Breakdown({ node, money }: BreakdownProps) {
  return (
    <ul className="tree">
      <Branch node={node as unknown as Node} money={money} open />
    </ul>
  );
}

function Branch({ node, money, open = false }: { node: Node; money: Money; open?: boolean }) {
  const head = (
    <>
      <span>
        {node.figure.charAt(0).toUpperCase() + node.figure.slice(1)}
        {node.of !== undefined && node.of !== node.figure && <small> {node.of}</small>}
      </span>
      <span className="num">{amountOf(node, money)}</span>
    </>
  );
  const { inputs } = node;
  if (inputs.length === 0) {
    return (
      <li className="leaf">
        <div className="branch">{head}</div>
        <p className="rule-words">{node.rule}</p>
      </li>
    );
  }
  return (
    <li>
      <details open={open}>
        <summary className="branch">{head}</summary>
        <p className="rule-words">{node.rule}</p>
        <ul>
          {inputs.map((input, at) => (
            <Branch key={`${input.figure} ${input.of ?? ''} ${at}`} node={input} money={money} />
          ))}
        </ul>
      </details>
    </li>
  );
}

const amountOf = (node: Node, money: Money): string =>
  node.cents === undefined ? hoursOf(node.hundredths ?? 0) : money.full(node.cents);
