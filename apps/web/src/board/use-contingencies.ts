import { useEffect, useState } from 'react';

type Slip = typeof import('./happened/contingency-slip.js').ContingencySlip;

/** What tells that something happened: fetched when a ticket is opened. Null until it is there, or while the line is lost. */
export function useContingencySlip(): Slip | null {
  const [slip, setSlip] = useState<{ readonly Part: Slip } | null>(null);
  useEffect(() => {
    void import('./happened/contingency-slip.js').then(
      ({ ContingencySlip }) => setSlip({ Part: ContingencySlip }),
      () => undefined,
    );
  }, []);
  return slip?.Part ?? null;
}
