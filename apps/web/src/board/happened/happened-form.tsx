import { type SubmitEvent, useEffect, useState } from 'react';
import type { ApiFault } from '../../api/fault.js';
import type { WorkContingency } from '../../api/types.js';
import { fieldFault } from '../../ui/field.js';
import { Refusal, refusalWords } from '../../ui/refusal.js';
import { TextArea } from '../../ui/text-area.js';
import type { AfterAct } from '../act-bar.js';
import { withPhoto, withReason } from './draft.js';
import { dataAddress, shrinkPhoto } from './shrink-photo.js';
import { tell } from './tell.js';
import type { DraftInHand } from './use-draft.js';

interface HappenedFormProps {
  readonly contingency: WorkContingency;
  readonly workOrderNumber: number;
  readonly inHand: DraftInHand;
  readonly after: AfterAct;
  readonly onDone: () => void;
}

const LOST =
  'It has not arrived yet. What you wrote and the photo are kept on this device: send them again when the line is back.';

/** What happened, in words and with a photo. Nothing that was entered is lost, whatever the line or the server does. */
export function HappenedForm({ contingency, workOrderNumber, inHand, after, onDone }: HappenedFormProps) {
  const { draft, isKept, change, drop } = inHand;
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const complete = draft.reason.trim().length >= 3 && draft.photo !== null;

  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!complete || busy) return;
    setBusy(true);
    setFault(null);
    const sending = tell(contingency.contingencyId, draft, (photoId) =>
      change((now) => ({ ...now, photoId })),
    );
    const refused = await after(sending, `${workOrderNumber}: ${contingency.what}, told with its photo.`);
    setBusy(false);
    setFault(refused);
    // Told before, by this or another device: there is nothing left to send.
    if (refused === null || refused.code === 'contingency-triggered') await drop();
    if (refused === null) onDone();
  };
  const words = fault?.code === 'line-lost' ? LOST : fault ? refusalWords(fault) : undefined;
  return (
    <form className="happened" onSubmit={(event) => void submit(event)}>
      <Refusal detail={words} />
      {isKept && fault === null && (
        <p className="hint">You began this before; it has not been sent. Look it over and send it.</p>
      )}
      <fieldset disabled={busy}>
        <PhotoField
          photo={draft.photo}
          fault={fieldFault(fault?.fields, '/photoId')}
          onPhoto={(photo) => void change((now) => withPhoto(now, photo))}
        />
        <TextArea
          label="What happened? The owner reads this."
          rows={3}
          maxLength={1000}
          value={draft.reason}
          fault={fieldFault(fault?.fields, '/reason')}
          onText={(reason) => void change((now) => withReason(now, reason))}
        />
      </fieldset>
      <div className="acts">
        <button type="submit" className="button main" disabled={busy || !complete}>
          {busy ? 'Sending' : fault ? 'Send again' : 'Say that it happened'}
        </button>
        <button type="button" className="button" onClick={onDone}>
          Back
        </button>
      </div>
    </form>
  );
}

interface PhotoFieldProps {
  readonly photo: Blob | null;
  readonly fault: string | undefined;
  readonly onPhoto: (photo: Blob) => void;
}

/** One big target that opens the camera, and the picture that was taken. */
function PhotoField({ photo, fault, onPhoto }: PhotoFieldProps) {
  const [address, setAddress] = useState('');
  useEffect(() => {
    let isHere = true;
    const show = (next: string): void => {
      if (isHere) setAddress(next);
    };
    if (photo === null) show('');
    else void dataAddress(photo).then(show, () => show(''));
    return () => {
      isHere = false;
    };
  }, [photo]);
  return (
    <div className="shot">
      {address !== '' && <img src={address} alt="The photo that goes with it" />}
      <label className="button">
        {photo === null ? 'Take a photo of it' : 'Take another photo'}
        <input
          type="file"
          accept="image/*"
          capture="environment"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) void shrinkPhoto(file).then(onPhoto);
          }}
        />
      </label>
      {fault !== undefined && <p className="wrong">{fault}</p>}
    </div>
  );
}
