import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { type Draft, Drafts, emptyDraft } from './draft.js';

export interface DraftInHand {
  readonly draft: Draft;
  /** It was begun earlier, on this device, and has not arrived. */
  readonly isKept: boolean;
  /** From what it is at that moment: a photo takes a while to be drawn, and words are written meanwhile. */
  readonly change: (how: (draft: Draft) => Draft) => Promise<void>;
  readonly drop: () => Promise<void>;
}

/** The draft of a contingency, every change of it kept at once; null until it was looked for. */
export function useDraft(staffId: string, contingencyId: string): DraftInHand | null {
  const drafts = useMemo(() => new Drafts(staffId), [staffId]);
  const [found, setFound] = useState<{ draft: Draft; isKept: boolean } | null>(null);
  const latest = useRef(emptyDraft());
  useEffect(() => {
    let isHere = true;
    void drafts.read(contingencyId).then((kept) => {
      if (!isHere) return;
      latest.current = kept ?? emptyDraft();
      setFound({ draft: latest.current, isKept: kept !== null });
    });
    return () => {
      isHere = false;
    };
  }, [drafts, contingencyId]);
  const change = useCallback(
    async (how: (draft: Draft) => Draft) => {
      const draft = how(latest.current);
      latest.current = draft;
      setFound((before) => ({ draft, isKept: before?.isKept ?? false }));
      await drafts.keep(contingencyId, draft);
    },
    [drafts, contingencyId],
  );
  const drop = useCallback(() => drafts.drop(contingencyId), [drafts, contingencyId]);
  return found && { ...found, change, drop };
}
