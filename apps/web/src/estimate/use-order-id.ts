import { useCallback, useEffect, useState } from 'react';

const ofAddress = (): string | null => new URLSearchParams(location.search).get('repairOrder');

/** The repair order in the address, so that a reload, a bookmark and the back button keep it. */
export function useOrderId(): [string | null, (id: string | null) => void] {
  const [id, setId] = useState(ofAddress);
  useEffect(() => {
    const back = (): void => setId(ofAddress());
    addEventListener('popstate', back);
    return () => removeEventListener('popstate', back);
  }, []);
  const choose = useCallback((next: string | null) => {
    history.pushState(null, '', next === null ? '/estimate' : `/estimate?repairOrder=${next}`);
    setId(next);
  }, []);
  return [id, choose];
}
