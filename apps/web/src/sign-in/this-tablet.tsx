import { type SubmitEvent, useState } from 'react';
import { call } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import { type Device, forgetDevice, keepDevice } from '../session/device.js';
import { fieldFault } from '../ui/field.js';
import { Refusal } from '../ui/refusal.js';
import { TextField } from '../ui/text-field.js';

interface ThisTabletProps {
  readonly shopName: string;
  readonly device: Device | null;
  readonly onDevice: (device: Device | null) => void;
}

/** For a manager: makes this browser a bay tablet, or ordinary again. */
export function ThisTablet({ shopName, device, onDevice }: ThisTabletProps) {
  const forget = (): void => {
    forgetDevice();
    onDevice(null);
  };
  return (
    <section className="demo this-tablet" aria-labelledby="tablet-heading">
      <h2 id="tablet-heading">
        This tablet
        <small>
          {device
            ? `Enrolled as ${device.name}. Technicians sign in here with their name and PIN.`
            : 'Enrol it, and technicians sign in here with their name and PIN.'}
        </small>
      </h2>
      {device ? (
        <button type="button" className="button" onClick={forget}>
          Forget this tablet
        </button>
      ) : (
        <EnrolForm shopName={shopName} onDevice={onDevice} />
      )}
    </section>
  );
}

function EnrolForm({ shopName, onDevice }: Omit<ThisTabletProps, 'device'>) {
  const [name, setName] = useState('');
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const enrol = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setBusy(true);
    const answer = await call('post', '/api/v1/devices', { body: { name: name.trim() } });
    setBusy(false);
    setFault(answer.ok ? null : answer.fault);
    if (!answer.ok) return;
    const device = { token: answer.value.deviceToken, name: answer.value.name, shopName };
    keepDevice(device);
    onDevice(device);
  };
  const nameFault = fieldFault(fault?.fields, '/name');
  return (
    <form onSubmit={(event) => void enrol(event)}>
      <Refusal detail={fault && nameFault === undefined ? fault.detail : undefined} />
      <TextField
        label="Its name"
        hint="Such as the bay where it hangs."
        maxLength={60}
        value={name}
        fault={nameFault}
        onText={setName}
      />
      <button type="submit" className="button" disabled={busy}>
        Enrol this tablet
      </button>
    </form>
  );
}
