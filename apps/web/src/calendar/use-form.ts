import { type SubmitEvent, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import { fieldFault } from '../ui/field.js';
import type { Say } from './ledger.js';

type Outcome =
  { readonly ok: true; readonly value?: unknown } | { readonly ok: false; readonly fault: ApiFault };

export interface FormProps {
  readonly say: Say;
  readonly read: () => Promise<void>;
  readonly onClose: () => void;
}

/** A form on a slip: sends, says what happened and goes; or stays and shows what was refused, each under its field. */
export function useForm<A extends Outcome>(
  { say, read, onClose }: FormProps,
  send: () => Promise<A>,
  words: (answer: Extract<A, { ok: true }>) => string,
) {
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setBusy(true);
    const answer = await send();
    setBusy(false);
    setFault(answer.ok ? null : answer.fault);
    await read();
    if (!answer.ok) return;
    say(words(answer as Extract<A, { ok: true }>));
    onClose();
  };
  return {
    fault,
    busy,
    onSubmit: (event: SubmitEvent): void => void submit(event),
    wrong: (pointer: string): string | undefined => fieldFault(fault?.fields, pointer),
  };
}
