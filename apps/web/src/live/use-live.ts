import { useEffect, useState } from 'react';
import { coalesce } from './coalesce.js';
import type { LineState, LiveLine, Subjects } from './live-line.js';

const RETRY_MS = 5000;
const always = (): boolean => true;

/**
 * Keeps a page fresh: `read` is run about 100 ms after the first of a burst of changes that matter to it. Starts with the
 * first board; '' is an id that the server does not know, after which it asks for one more reading.
 * The line's own code is fetched after that board was drawn, so that it does not keep anybody waiting.
 */
export function useLive(
  lastEventId: string | undefined,
  read: () => Promise<unknown>,
  matters: (subjects: Subjects) => boolean = always,
): LineState {
  const [line, setLine] = useState<LineState>('connecting');
  const started = lastEventId !== undefined;
  useEffect(() => {
    if (lastEventId === undefined) return;
    const news = coalesce(read, 100);
    const onNews = (subjects?: Subjects): void => {
      if (!subjects || matters(subjects)) news.call();
    };
    let live: LiveLine | undefined;
    let retry: number | undefined;
    let left = false;
    const start = async (): Promise<void> => {
      try {
        const code = await import('./live-line.js');
        if (!left) live = new code.LiveLine({ lastEventId, onNews, onState: setLine });
      } catch {
        setLine('lost');
        if (!left) retry = window.setTimeout(() => void start(), RETRY_MS);
      }
    };
    void start();
    return () => {
      left = true;
      window.clearTimeout(retry);
      news.stop();
      live?.close();
    };
    // Later boards carry later ids, which the open line already knows.
  }, [started, read, matters]);
  return line;
}
