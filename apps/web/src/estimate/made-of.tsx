import type { Line } from '../api/estimate-types.js';
import { positionWords } from './words.js';

/** A line in its parts: the findings it answers, its operations, what is sold with it, and why it ranks where it does. */
export function MadeOf({ line, siblings }: { readonly line: Line; readonly siblings: readonly Line[] }) {
  const titles = (ids: readonly string[]): string =>
    siblings
      .filter((one) => ids.includes(one.id))
      .map(({ title }) => title)
      .join('; ');
  const [needs, bars] = [titles(line.requires), titles(line.excludes)];
  return (
    <ul className="made-of">
      {line.findings.map((finding) => (
        <li key={finding.findingId}>
          Answers: {finding.title}, {finding.word}
        </li>
      ))}
      {line.operations.map((operation) => (
        <li key={operation.operationId}>
          {operation.name}: {operation.positions.map(positionWords).join(', ')}
        </li>
      ))}
      {line.enteredHundredths !== null && line.enteredSource !== null && (
        <li>Hours entered: {line.enteredSource}</li>
      )}
      {line.items.map((item) => (
        <li key={item.id}>
          {item.name}
          {item.partNumber !== null && `, ${item.partNumber}`}, {item.quantityHundredths / 100} ×
        </li>
      ))}
      {needs !== '' && <li>Only together with: {needs}</li>}
      {bars !== '' && <li>Not together with: {bars}</li>}
      <li>Why it ranks where it does: {line.benefit.why}</li>
    </ul>
  );
}
