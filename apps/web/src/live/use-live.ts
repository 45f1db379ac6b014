import { useEffect, useState } from 'react';
import { coalesce } from './coalesce.js';
import { type LineState, LiveLine } from './live-line.js';

/** Keeps a page fresh: `read` is run about 100 ms after the first of a burst of changes. Starts with the first board. */
export function useLive(lastEventId: string | undefined, read: () => Promise<unknown>): LineState {
  const [line, setLine] = useState<LineState>('connecting');
  const started = lastEventId !== undefined;
  useEffect(() => {
    if (lastEventId === undefined) return;
    const news = coalesce(read, 100);
    const live = new LiveLine({ lastEventId, onNews: news.call, onState: setLine });
    return () => {
      news.stop();
      live.close();
    };
    // Later boards carry later ids, which the open line already knows.
  }, [started, read]);
  return line;
}
