import { SelectField } from '../../ui/select-field.js';
import { TextField } from '../../ui/text-field.js';
import type { LineDraft } from './line-draft.js';
import type { DraftProps } from './line-form.js';

const reasons = [
  ['', 'It is charged'],
  ['warranty', 'Not charged: warranty'],
  ['goodwill', 'Not charged: goodwill'],
  ['comeback', 'Not charged: comeback'],
] as const satisfies readonly (readonly [LineDraft['noCharge'], string])[];

/** Hours by hand, labour that is not charged, and what is taken off. */
export function LineReductions({ draft, wrong, change }: DraftProps) {
  const off = draft.labourOff !== '' || draft.itemsOff !== '';
  return (
    <details className="fold" open={draft.hours !== '' || draft.noCharge !== '' || off || undefined}>
      <summary>Hours by hand, discount, no charge</summary>
      <div className="two">
        <TextField
          label="Book hours instead of the steps"
          hint="Empty: the sum of the steps"
          inputMode="decimal"
          required={false}
          value={draft.hours}
          fault={wrong('/enteredHundredths')}
          onText={(hours) => change({ hours })}
        />
        <TextField
          label="Where these hours come from"
          required={draft.hours.trim() !== ''}
          maxLength={120}
          value={draft.hoursSource}
          fault={wrong('/enteredSource')}
          onText={(hoursSource) => change({ hoursSource })}
        />
        <SelectField
          label="Labour"
          value={draft.noCharge}
          options={reasons}
          fault={wrong('/noCharge')}
          onPick={(noCharge) => change({ noCharge })}
        />
        <div />
        <TextField
          label="Off labour, per cent"
          inputMode="decimal"
          required={false}
          value={draft.labourOff}
          fault={wrong('/discount/labourPpm')}
          onText={(labourOff) => change({ labourOff })}
        />
        <TextField
          label="Off parts, per cent"
          inputMode="decimal"
          required={false}
          value={draft.itemsOff}
          fault={wrong('/discount/itemsPpm')}
          onText={(itemsOff) => change({ itemsOff })}
        />
        {off && (
          <div className="whole">
            <TextField
              label="Why it is taken off; the owner reads it"
              maxLength={200}
              value={draft.offReason}
              fault={wrong('/discount/reason')}
              onText={(offReason) => change({ offReason })}
            />
          </div>
        )}
      </div>
    </details>
  );
}
