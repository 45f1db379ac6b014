import { useCallback, useEffect, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import { send } from '../api/transport.js';
import type { Person } from '../api/types.js';
import { type Device, deviceHeader, forgetDevice } from '../session/device.js';
import { Refusal } from '../ui/refusal.js';
import { PinPad } from './pin-pad.js';

interface TabletPeopleProps {
  readonly device: Device;
  readonly onSignedIn: () => void;
  readonly onPassword: () => void;
  readonly onForgotten: () => void;
}

/** The bay tablet's door: tap your name, then your PIN. Every target is made for gloves. */
export function TabletPeople({ device, onSignedIn, onPassword, onForgotten }: TabletPeopleProps) {
  const [people, setPeople] = useState<readonly Person[] | null>(null);
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [chosen, setChosen] = useState<Person | null>(null);
  const read = useCallback(async () => {
    setFault(null);
    const answer = await send('get', '/api/v1/devices/current/people', { headers: deviceHeader(device) });
    if (answer.ok) setPeople(answer.value.items);
    else setFault(answer.fault);
  }, [device]);
  useEffect(() => void read(), [read]);

  if (chosen) {
    const ways = { onSignedIn, onPassword, onBack: () => setChosen(null) };
    return <PinPad person={chosen} device={device} {...ways} />;
  }
  const refused = fault?.status === 401 || fault?.status === 403;
  return (
    <main className="tablet">
      <h1>Who are you?</h1>
      {refused && <NoLongerEnrolled onForgotten={onForgotten} />}
      {fault && !refused && (
        <>
          <Refusal title="The names cannot be read." detail={fault.detail} />
          <button type="button" className="glove wide" onClick={() => void read()}>
            Try again
          </button>
        </>
      )}
      {people?.length === 0 && (
        <p className="notice">Nobody in this shop has a PIN yet. A manager sets one for each technician.</p>
      )}
      <ul className="people" aria-busy={!people && !fault}>
        {people?.map((person) => (
          <PersonButton key={person.id} person={person} onChoose={setChosen} />
        ))}
      </ul>
      {!refused && (
        <button type="button" className="plain glove-plain" onClick={onPassword}>
          Use e-mail and password
        </button>
      )}
    </main>
  );
}

function NoLongerEnrolled({ onForgotten }: { readonly onForgotten: () => void }) {
  const forget = (): void => {
    forgetDevice();
    onForgotten();
  };
  return (
    <>
      <Refusal
        title="This tablet is not enrolled any more."
        detail="A manager can sign in with a password and enrol it again."
      />
      <button type="button" className="glove wide" onClick={forget}>
        Sign in with a password
      </button>
    </>
  );
}

function PersonButton({
  person,
  onChoose,
}: {
  readonly person: Person;
  readonly onChoose: (person: Person) => void;
}) {
  return (
    <li>
      <button type="button" className="glove" onClick={() => onChoose(person)}>
        <span className="initials" aria-hidden="true">
          {initials(person.displayName)}
        </span>
        <span className="person-name" title={person.displayName}>
          {person.displayName}
        </span>
      </button>
    </li>
  );
}

const initials = (name: string): string =>
  name
    .split(/\s+/)
    .map((word) => word.charAt(0))
    .filter((_, index, all) => index === 0 || index === all.length - 1)
    .join('');
