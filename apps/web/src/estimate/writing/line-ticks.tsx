import { useQuery } from '@tanstack/react-query';
import { call } from '../../api/client.js';
import type { Finding, Line, Order } from '../../api/estimate-types.js';
import { MarkWithWord, type Mark } from '../../ui/marks.js';
import { type Refused, valueOf } from '../answers.js';
import type { DraftProps } from './line-form.js';

const without = (ids: readonly string[], id: string): string[] =>
  ids.includes(id) ? ids.filter((one) => one !== id) : [...ids, id];

/** Which findings of this stay the line answers; those on no line come first. */
export function FindingTicks({ draft, change, order }: DraftProps & { readonly order: Order }) {
  const query = useQuery<readonly Finding[], Refused>({
    queryKey: ['findings', order.id],
    queryFn: async ({ signal }) =>
      (await valueOf(call('get', '/api/v1/repair-orders/{id}/findings', { path: { id: order.id }, signal })))
        .items,
    retry: false,
  });
  const offered = (query.data ?? [])
    .filter((finding) => !finding.isWithdrawn)
    .filter((finding) => finding.lines.length === 0 || draft.findingIds.includes(finding.id));
  if (offered.length === 0) return null;
  return (
    <fieldset className="ticks">
      <legend>It answers what was found</legend>
      {offered.map((finding) => (
        <label key={finding.id}>
          <input
            type="checkbox"
            checked={draft.findingIds.includes(finding.id)}
            onChange={() => change({ findingIds: without(draft.findingIds, finding.id) })}
          />
          <span>{finding.title}</span>
          <MarkWithWord mark={finding.word.toLowerCase() as Mark} />
        </label>
      ))}
    </fieldset>
  );
}

/** Lines without which this one makes no sense. */
export function LineTicks({ draft, change, siblings }: DraftProps & { readonly siblings: readonly Line[] }) {
  if (siblings.length === 0) return null;
  return (
    <details className="fold">
      <summary>
        Only together with another line{draft.requires.length > 0 && `: ${draft.requires.length}`}
      </summary>
      <fieldset className="ticks">
        <legend className="vh">Only together with</legend>
        {siblings.map((line) => (
          <label key={line.id}>
            <input
              type="checkbox"
              checked={draft.requires.includes(line.id)}
              onChange={() => change({ requires: without(draft.requires, line.id) })}
            />
            <span>{line.title}</span>
          </label>
        ))}
      </fieldset>
    </details>
  );
}
