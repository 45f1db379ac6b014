import { useEffect, useState } from 'react';

/** The server's present, carried on by this device's clock, to about a quarter of a minute. */
export function useNow(serverNow: string | undefined, readAt: number): number {
  const [, tick] = useState(0);
  useEffect(() => {
    const timer = window.setInterval(() => tick((n) => n + 1), 15_000);
    return () => window.clearInterval(timer);
  }, []);
  return serverNow === undefined ? Date.now() : Date.parse(serverNow) + Math.max(0, Date.now() - readAt);
}
