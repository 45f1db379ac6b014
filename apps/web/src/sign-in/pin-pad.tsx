import { type KeyboardEvent, useEffect, useRef, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Person } from '../api/types.js';
import { type Device, deviceHeader } from '../session/device.js';
import { signInWithPin } from '../session/sign-in.js';
import { Refusal } from '../ui/refusal.js';
import { signInWords } from './sign-in-words.js';

interface PinPadProps {
  readonly person: Person;
  readonly device: Device;
  readonly onSignedIn: () => void;
  readonly onBack: () => void;
  readonly onPassword: () => void;
}

const SHORTEST = 4;
const LONGEST = 8;

/** Ten big digits. A keyboard works too: digits, Backspace, Enter, Escape. */
export function PinPad({ person, device, onSignedIn, onBack, onPassword }: PinPadProps) {
  const [pin, setPin] = useState('');
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<ApiFault | null>(null);
  const pad = useRef<HTMLElement>(null);
  useEffect(() => pad.current?.focus(), []);

  const press = (digit: string): void => {
    setFault(null);
    setPin((before) => (before.length < LONGEST ? before + digit : before));
  };
  const undo = (): void => setPin((before) => before.slice(0, -1));
  const signIn = async (): Promise<void> => {
    if (pin.length < SHORTEST || busy) return;
    setBusy(true);
    const answer = await signInWithPin(person.id, pin, deviceHeader(device));
    setBusy(false);
    setPin('');
    if (answer.ok) onSignedIn();
    else setFault(answer.fault);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (/^\d$/.test(event.key)) press(event.key);
    else if (event.key === 'Backspace') undo();
    else if (event.key === 'Escape') onBack();
    else if (event.key === 'Enter' && event.target === pad.current) void signIn();
  };
  return (
    <main className="tablet pin" ref={pad} tabIndex={-1} onKeyDown={onKeyDown} aria-labelledby="pin-name">
      <h1 id="pin-name">
        <small>Your PIN</small>
        {person.displayName}
      </h1>
      <Dots count={pin.length} />
      <div className="pin-words">
        <Refusal {...(fault ? signInWords(fault, 'pin') : {})} />
      </div>
      <Digits count={pin.length} busy={busy} onDigit={press} onUndo={undo} onGo={() => void signIn()} />
      <div className="pin-ways">
        <button type="button" className="plain glove-plain" onClick={onBack}>
          Somebody else
        </button>
        <button type="button" className="plain glove-plain" onClick={onPassword}>
          Use e-mail and password
        </button>
      </div>
    </main>
  );
}

function Dots({ count }: { readonly count: number }) {
  return (
    <p className="dots" role="status" aria-label={`${count} digits entered`}>
      {Array.from({ length: Math.max(4, count) }, (_, index) => (
        <i key={index} className={index < count ? 'inked' : ''} />
      ))}
    </p>
  );
}

interface DigitsProps {
  readonly count: number;
  readonly busy: boolean;
  readonly onDigit: (digit: string) => void;
  readonly onUndo: () => void;
  readonly onGo: () => void;
}

function Digits({ count, busy, onDigit, onUndo, onGo }: DigitsProps) {
  const digit = (value: string) => (
    <button key={value} type="button" className="glove num" onClick={() => onDigit(value)}>
      {value}
    </button>
  );
  return (
    <div className="digits">
      {['1', '2', '3', '4', '5', '6', '7', '8', '9'].map(digit)}
      <button type="button" className="glove" onClick={onUndo} disabled={count === 0}>
        Undo
      </button>
      {digit('0')}
      <button type="button" className="glove go" onClick={onGo} aria-disabled={count < SHORTEST || busy}>
        Sign in
      </button>
    </div>
  );
}
