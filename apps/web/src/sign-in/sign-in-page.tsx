import { useEffect, useState } from 'react';
import { type Device, enrolledDevice } from '../session/device.js';
import { nextPage } from '../session/next-page.js';
import { resume, useSession } from '../session/session.js';
import { LightSwitch } from '../ui/light-switch.js';
import { SignedInPanel } from './signed-in-panel.js';
import { StaffForm } from './staff-form.js';
import { TabletPeople } from './tablet-people.js';

const query = new URLSearchParams(location.search);
const reasons: Readonly<Record<string, string>> = {
  expired: 'You were signed out because nobody used this page for a while. Nothing is lost.',
  left: 'You are signed out.',
};

const goOn = (): void => location.assign(nextPage(query.get('next')));

/** Two doors: an enrolled bay tablet asks who and a PIN, everything else asks for e-mail and password. */
export function SignInPage() {
  const session = useSession();
  const [device, setDevice] = useState<Device | null>(enrolledDevice);
  const [byPassword, setByPassword] = useState(false);
  const [reason, setReason] = useState(reasons[query.get('why') ?? '']);
  // Whether somebody was signed in already when the page came up: only then is there a panel to show. A sign-in on
  // this page leads on to the board, and the form stays until that has come.
  const [arrived, setArrived] = useState<'unknown' | 'in' | 'out'>('unknown');
  useEffect(() => void resume().then((state) => setArrived(state.kind === 'signed-in' ? 'in' : 'out')), []);
  useEffect(() => {
    if (session.kind === 'signed-out') setArrived('out');
  }, [session.kind]);

  const tablet = device !== null && !byPassword;
  const signedIn = session.kind === 'signed-in' && arrived === 'in';
  return (
    <div className="sign-in" data-stock={tablet && arrived === 'out' ? 'bay' : 'desk'}>
      <header className="sign-in-top">
        <p className="house">
          {signedIn ? session.shop.name : (device?.shopName ?? '') || 'Bayledger'}
          {device && <small>{device.name}</small>}
        </p>
        <LightSwitch />
      </header>
      {arrived === 'unknown' && <main className="sign-in-main" aria-busy="true" aria-label="One moment" />}
      {signedIn && <SignedInPanel session={session} device={device} onDevice={setDevice} onGo={goOn} />}
      {arrived === 'out' && tablet && (
        <TabletPeople
          device={device}
          onSignedIn={goOn}
          onPassword={() => {
            setReason(undefined);
            setByPassword(true);
          }}
          onForgotten={() => setDevice(null)}
        />
      )}
      {arrived === 'out' && !tablet && (
        <StaffForm
          reason={session.kind === 'line-lost' ? undefined : reason}
          onSignedIn={goOn}
          {...(device ? { onTablet: () => setByPassword(false) } : {})}
        />
      )}
    </div>
  );
}
