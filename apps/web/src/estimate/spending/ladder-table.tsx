import type { Rung } from '../../api/estimate-types.js';
import { ratioWords } from '../ratio.js';
import type { LadderProps } from './ladder-props.js';
import { stepWords } from './step-words.js';

/** The same steps to be read, for whoever does not see the drawing or wants the figures. */
export function LadderTable({
  rungs,
  isTaken,
  money,
  titles,
  onTake,
}: LadderProps & { rungs: readonly Rung[] }) {
  const hasRatio = rungs.some((rung) => rung.ratioOfValuePpm !== null);
  return (
    <details>
      <summary>The steps as a table</summary>
      <table className="steps">
        <thead>
          <tr>
            <th scope="col">Step</th>
            <th scope="col">Price</th>
            {hasRatio && <th scope="col">Of the value</th>}
            <th scope="col">What changes</th>
            <th scope="col">
              <span className="vh">Choose</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rungs.map((rung, at) => (
            <tr key={rung.chosen.join()}>
              <th scope="row" className="num">
                {at + 1}
              </th>
              <td className="num">{money.full(rung.priceCents)}</td>
              {hasRatio && (
                <td className="num">
                  {rung.ratioOfValuePpm === null ? '' : ratioWords(rung.ratioOfValuePpm)}
                </td>
              )}
              <td>{stepWords(rung, titles)}</td>
              <td>
                <button
                  type="button"
                  className="plain"
                  disabled={isTaken(rung.chosen)}
                  onClick={() => onTake(rung.chosen)}
                >
                  Choose<span className="vh"> step {at + 1}</span>
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
