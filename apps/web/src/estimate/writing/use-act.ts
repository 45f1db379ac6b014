import { useState } from 'react';
import type { Result } from '#libs/kernel';
import type { ApiFault } from '../../api/fault.js';

export interface Acting {
  readonly busy: boolean;
  readonly fault: ApiFault | null;
  /** True after a 412: the next try is made with what was read again. */
  readonly stale: boolean;
  readonly refuse: (fault: ApiFault) => void;
  /** Null when it was refused. */
  readonly run: <T>(act: () => Promise<Result<T, ApiFault>>) => Promise<{ readonly value: T } | null>;
}

/** One act of a form: what was refused stays to be shown, what was stale is read again, what worked is read too. */
export function useAct(read: () => Promise<void>): Acting {
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [stale, setStale] = useState(false);
  return {
    busy,
    fault,
    stale,
    refuse: setFault,
    run: async (act) => {
      setBusy(true);
      const answer = await act();
      if (answer.ok || answer.fault.status === 412) await read();
      setBusy(false);
      setFault(answer.ok ? null : answer.fault);
      if (!answer.ok && answer.fault.status === 412) setStale(true);
      return answer.ok ? { value: answer.value } : null;
    },
  };
}
