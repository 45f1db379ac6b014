import type { Revision } from '../api/estimate-types.js';
import { revisionName } from './words.js';

interface TabsProps {
  readonly revisions: readonly Revision[];
  readonly shown: Revision;
  readonly onShow: (id: string) => void;
}

/** The revisions as index cards: the one in front stands higher. */
export function RevisionTabs({ revisions, shown, onShow }: TabsProps) {
  return (
    <fieldset className="cards">
      <legend className="vh">Which revision to show</legend>
      {revisions.map((revision) => (
        <label key={revision.id}>
          <input
            type="radio"
            name="revision"
            checked={revision.id === shown.id}
            onChange={() => onShow(revision.id)}
          />
          <span>{revisionName(revision)}</span>
        </label>
      ))}
    </fieldset>
  );
}
