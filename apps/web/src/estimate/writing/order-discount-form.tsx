import type { SubmitEvent } from 'react';
import { call, ifMatch } from '../../api/client.js';
import type { Revision } from '../../api/estimate-types.js';
import { fieldFault } from '../../ui/field.js';
import { TextField } from '../../ui/text-field.js';
import { useFirstField } from '../../ui/use-first-field.js';
import { moneyOf } from '../money.js';
import { FormActs } from './form-acts.js';
import { FormRefusal } from './form-refusal.js';
import { FigureReader, unreadable } from './read-figures.js';
import { submitKeys } from './submit-keys.js';
import { useAct } from './use-act.js';
import { useKept } from './use-kept.js';
import type { WritingProps } from './writing-dialog.js';

interface DiscountDraft {
  readonly labour: string;
  readonly items: string;
  readonly amount: string;
  readonly reason: string;
}

const shown = (value: number | null | undefined, by: number): string =>
  value == null ? '' : String(value / by);

const firstDraft = ({ orderDiscount: of }: Revision): DiscountDraft => ({
  labour: shown(of?.labourPpm, 10_000),
  items: shown(of?.itemsPpm, 10_000),
  amount: shown(of?.cents, 100),
  reason: of?.reason ?? '',
});

/** What is taken off the whole draft: per cents, or one amount; everything empty takes it away again. */
export function OrderDiscountForm(props: WritingProps & { readonly revision: Revision }) {
  const { revision, estimate, read, say, onClose } = props;
  const form = useFirstField();
  const [draft, setDraft, forget] = useKept(`discount ${revision.id}`, () => firstDraft(revision));
  const act = useAct(read);
  const current = estimate.revisions.find((one) => one.id === revision.id) ?? revision;

  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const reader = new FigureReader();
    const amount = draft.amount.trim();
    const body = {
      labourPpm: reader.ppm('/labourPpm', draft.labour),
      itemsPpm: reader.ppm('/itemsPpm', draft.items),
      cents: amount === '' ? null : reader.hundredths('/cents', amount, 'the amount'),
      reason: draft.reason.trim() || null,
    };
    if (reader.faults.length > 0) {
      act.refuse(unreadable(reader.faults));
      return;
    }
    const saved = await act.run(() =>
      call('put', '/api/v1/revisions/{id}/discount', {
        path: { id: revision.id },
        headers: ifMatch(act.stale ? current.version : revision.version),
        body,
      }),
    );
    if (!saved) return;
    forget();
    say('The discount is set.');
    onClose();
  };
  return (
    <form ref={form} className="write" onSubmit={(event) => void submit(event)} onKeyDown={submitKeys}>
      <FormRefusal fault={act.fault} shown={(pointer) => /labour|items|cents|reason/.test(pointer)} />
      <p className="notice">Per cents, or one amount. Everything empty takes it away again.</p>
      <DiscountFields
        draft={draft}
        sign={moneyOf(estimate.currency).sign}
        wrong={(pointer) => fieldFault(act.fault?.fields, pointer)}
        onChange={(part) => setDraft({ ...draft, ...part })}
      />
      <FormActs word="Set the discount" busy={act.busy} onCancel={onClose} />
    </form>
  );
}

interface FieldsProps {
  readonly draft: DiscountDraft;
  readonly sign: string;
  readonly wrong: (pointer: string) => string | undefined;
  readonly onChange: (part: Partial<DiscountDraft>) => void;
}

function DiscountFields({ draft, sign, wrong, onChange }: FieldsProps) {
  const some = [draft.labour, draft.items, draft.amount].some((text) => text.trim() !== '');
  return (
    <div className="two">
      <TextField
        label="Off labour, per cent"
        inputMode="decimal"
        required={false}
        value={draft.labour}
        fault={wrong('/labourPpm')}
        onText={(labour) => onChange({ labour })}
      />
      <TextField
        label="Off parts, per cent"
        inputMode="decimal"
        required={false}
        value={draft.items}
        fault={wrong('/itemsPpm')}
        onText={(items) => onChange({ items })}
      />
      <TextField
        label={`Or an amount, ${sign}`}
        inputMode="decimal"
        required={false}
        value={draft.amount}
        fault={wrong('/cents')}
        onText={(amount) => onChange({ amount })}
      />
      <TextField
        label="Why; the owner reads it"
        maxLength={200}
        required={some}
        value={draft.reason}
        fault={wrong('/reason')}
        onText={(reason) => onChange({ reason })}
      />
    </div>
  );
}
