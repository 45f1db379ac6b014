import type { ApiFault } from '../../api/fault.js';
import { refusalWords } from '../../ui/refusal.js';

interface FormRefusalProps {
  readonly fault: ApiFault | null;
  /** Whether a field of the form shows what is wrong with this pointer. */
  readonly shown: (pointer: string) => boolean;
}

/** What was refused, and of its fields those that no control of the form stands for. */
export function FormRefusal({ fault, shown }: FormRefusalProps) {
  const others = fault?.fields?.filter(({ pointer }) => !shown(pointer)) ?? [];
  return (
    <div role="alert">
      {fault && (
        <div className="refusal">
          {refusalWords(fault, 'estimate')} What you wrote is still here.
          {others.length > 0 && (
            <ul>
              {others.map(({ pointer, detail }) => (
                <li key={pointer}>
                  {pointer.replaceAll('/', ' ').trim()}: {detail}
                </li>
              ))}
            </ul>
          )}
        </div>
      )}
    </div>
  );
}
