import { type SubmitEvent, useState } from 'react';
import { call, ifMatch } from '../../api/client.js';
import type { NewLink, Revision } from '../../api/estimate-types.js';
import { fieldFault } from '../../ui/field.js';
import { TextField } from '../../ui/text-field.js';
import { useFirstField } from '../../ui/use-first-field.js';
import { moneyOf } from '../money.js';
import { lines } from '../words.js';
import { FormActs } from './form-acts.js';
import { FormRefusal } from './form-refusal.js';
import { LinkShown } from './link-shown.js';
import { useAct } from './use-act.js';
import type { WritingProps } from './writing-dialog.js';

interface OfRevision extends WritingProps {
  readonly revision: Revision;
}

const hoursBody = (text: string): { validHours?: number } =>
  text.trim() === '' ? {} : { validHours: Number(text) };

/** Freezes the revision; the link to it is shown here, this once. */
export function SendForm({ revision, estimate, read, say, zone, onClose }: OfRevision) {
  const [hours, setHours] = useState('');
  const [link, setLink] = useState<NewLink | null>(null);
  const form = useFirstField();
  const act = useAct(read);
  const current = estimate.revisions.find((one) => one.id === revision.id) ?? revision;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const sent = await act.run(() =>
      call('post', '/api/v1/revisions/{id}/send', {
        path: { id: revision.id },
        headers: ifMatch(act.stale ? current.version : revision.version),
        body: hoursBody(hours),
      }),
    );
    if (!sent) return;
    setLink(sent.value.link);
    say(`Revision ${revision.number} is sent. Copy the link now: it is shown this once.`);
  };
  if (link) return <LinkShown link={link} zone={zone} onClose={onClose} />;
  const unsafe = current.lines.filter((line) => line.word === 'Unsafe').length;
  return (
    <form ref={form} className="write" onSubmit={(event) => void submit(event)}>
      <FormRefusal fault={act.fault} shown={(pointer) => pointer === '/validHours'} />
      <p>
        {lines(current.lines.length)}, all together{' '}
        <b className="num">{moneyOf(estimate.currency).full(current.totals.totalCents)}</b>
        {unsafe > 0 && `; ${unsafe} of them unsafe`}. The owner answers line by line. After this the revision
        cannot be changed.
      </p>
      <HoursField {...{ hours, setHours }} fault={fieldFault(act.fault?.fields, '/validHours')} />
      <FormActs word={`Send revision ${revision.number}`} busy={act.busy} onCancel={onClose} />
    </form>
  );
}

/** A further link to a revision that was sent; the addresses of the earlier ones are not kept anywhere. */
export function LinkForm({ revision, read, say, zone, onClose }: OfRevision) {
  const [hours, setHours] = useState('');
  const [link, setLink] = useState<NewLink | null>(null);
  const form = useFirstField();
  const act = useAct(read);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const made = await act.run(() =>
      call('post', '/api/v1/revisions/{id}/links', { path: { id: revision.id }, body: hoursBody(hours) }),
    );
    if (!made) return;
    setLink(made.value);
    say('The link is made. Copy it now: it is shown this once.');
  };
  if (link) return <LinkShown link={link} zone={zone} onClose={onClose} />;
  return (
    <form ref={form} className="write" onSubmit={(event) => void submit(event)}>
      <FormRefusal fault={act.fault} shown={(pointer) => pointer === '/validHours'} />
      <p>Links that were made before stay open until they end.</p>
      <HoursField {...{ hours, setHours }} fault={fieldFault(act.fault?.fields, '/validHours')} />
      <FormActs word="Make the link" busy={act.busy} onCancel={onClose} />
    </form>
  );
}

interface HoursProps {
  readonly hours: string;
  readonly setHours: (text: string) => void;
  readonly fault: string | undefined;
}

function HoursField({ hours, setHours, fault }: HoursProps) {
  return (
    <TextField
      label="Holds for how many hours"
      hint="Empty: as the shop has set it"
      type="number"
      min={1}
      max={8760}
      required={false}
      value={hours}
      fault={fault}
      onText={setHours}
    />
  );
}
