import { type SubmitEvent, useState } from 'react';
import { call } from '../../api/client.js';
import type { ApiFault } from '../../api/fault.js';
import type { PartNeed } from '../../api/types.js';
import { type Wall, moment } from '../../plan/words.js';
import { fieldFault } from '../../ui/field.js';
import { Refusal, refusalWords } from '../../ui/refusal.js';
import { TextField } from '../../ui/text-field.js';
import { useFirstField } from '../../ui/use-first-field.js';
import type { AfterAct } from '../act-bar.js';
import { instantOf } from '../instant-of.js';
import { clockTime, dayOf } from '../zone-time.js';

interface ExpectFormProps {
  readonly need: Pick<PartNeed, 'lineItemId' | 'name' | 'expectedAt'>;
  readonly wall: Wall;
  readonly after: AfterAct;
  readonly onDone: () => void;
}

/** When it will come, by the shop's clock, or that nobody knows any more. */
export function ExpectForm({ need, wall, after, onDone }: ExpectFormProps) {
  const form = useFirstField();
  const known = need.expectedAt === null ? null : Date.parse(need.expectedAt);
  const before = known === null ? wall.today : dayOf(known, wall.zone);
  // What should have come on an earlier day comes today at the soonest.
  const [day, setDay] = useState(before < wall.today ? wall.today : before);
  const [time, setTime] = useState(known === null ? '' : clockTime(known, wall.zone));
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);

  const tell = async (expectedAt: string | null): Promise<void> => {
    const act = call('post', '/api/v1/line-items/{id}/expectations', {
      path: { id: need.lineItemId },
      body: { expectedAt },
    });
    const when = expectedAt === null ? 'nobody knows when it comes' : `expected ${moment(expectedAt, wall)}`;
    setBusy(true);
    const refused = await after(act, `${need.name}: ${when}.`);
    setBusy(false);
    setFault(refused);
    if (!refused) onDone();
  };
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    void tell(new Date(instantOf(day, time, wall.zone)).toISOString());
  };
  return (
    <form ref={form} onSubmit={submit}>
      <Refusal detail={fault ? refusalWords(fault) : undefined} />
      <div className="fields">
        <TextField
          label="Day"
          type="date"
          value={day}
          fault={fieldFault(fault?.fields, '/expectedAt')}
          onText={setDay}
        />
        <TextField label="Time" type="time" value={time} onText={setTime} />
      </div>
      <div className="acts">
        <button type="submit" className="button main" disabled={busy}>
          It comes then
        </button>
        <button type="button" className="button" disabled={busy} onClick={() => void tell(null)}>
          Nobody knows when
        </button>
        <button type="button" className="button" onClick={onDone}>
          Back
        </button>
      </div>
    </form>
  );
}
