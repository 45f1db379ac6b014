import type { Item } from '../../api/estimate-types.js';
import { SelectField } from '../../ui/select-field.js';
import { TextField } from '../../ui/text-field.js';
import { moneyOf } from '../money.js';
import { type ItemDraft, type PriceRule, newItem } from './line-draft.js';
import type { DraftProps } from './line-form.js';

const kinds: readonly (readonly [Item['kind'], string])[] = [
  ['part', 'Part'],
  ['fluid', 'Fluid'],
  ['sublet', 'Sublet'],
  ['fee', 'Fee'],
];
const rules: readonly (readonly [PriceRule, string])[] = [
  ['entered', 'Price as entered'],
  ['matrix', 'From cost, by the shop’s bands'],
  ['margin', 'From cost, by a margin'],
  ['list', 'List price'],
  ['sublet-markup', 'From cost, sublet markup'],
];
const amountWord: Readonly<Record<PriceRule, string>> = {
  entered: 'Price each',
  list: 'List price each',
  matrix: 'Cost each',
  margin: 'Cost each',
  'sublet-markup': 'Cost each',
};
const conditions: readonly (readonly [ItemDraft['condition'], string])[] = [
  ['new', 'New'],
  ['used', 'Used'],
  ['rebuilt', 'Rebuilt'],
];
const sources: readonly (readonly [ItemDraft['source'], string])[] = [
  ['supplier', 'Supplier'],
  ['stock', 'Stock'],
  ['used', 'Used'],
  ['donor-vehicle', 'Donor vehicle'],
  ['customer-supplied', 'Customer’s own'],
];

/** Parts, fluids, sublet and fees of the line, each priced as entered or by a rule of the shop. */
export function ItemRows({ draft, wrong, change, currency }: DraftProps & { readonly currency: string }) {
  const put = (items: readonly ItemDraft[]): void => change({ items });
  return (
    <fieldset className="items">
      <legend>Parts and what else is sold with it</legend>
      {draft.items.map((item, at) => (
        <ItemRow
          key={item.key}
          item={item}
          sign={moneyOf(currency).sign}
          wrong={(field) => wrong(`/items/${at}/${field}`)}
          onChange={(part) => put(draft.items.map((one) => (one === item ? { ...one, ...part } : one)))}
          onRemove={() => put(draft.items.filter((one) => one !== item))}
        />
      ))}
      <button type="button" className="button" onClick={() => put([...draft.items, newItem()])}>
        Add a part or other item
      </button>
    </fieldset>
  );
}

interface RowProps {
  readonly item: ItemDraft;
  readonly sign: string;
  readonly wrong: (field: string) => string | undefined;
  readonly onChange: (part: Partial<ItemDraft>) => void;
  readonly onRemove: () => void;
}

function ItemRow({ item, sign, wrong, onChange, onRemove }: RowProps) {
  const pointer =
    item.rule === 'list' ? 'listCents' : item.rule === 'entered' ? 'unitPriceCents' : 'unitCostCents';
  return (
    <div className="item" role="group" aria-label={item.name || 'New item'}>
      <SelectField label="Kind" value={item.kind} options={kinds} onPick={(kind) => onChange({ kind })} />
      <TextField
        label="Name"
        maxLength={120}
        value={item.name}
        fault={wrong('name')}
        onText={(name) => onChange({ name })}
      />
      <TextField
        label="How many"
        inputMode="decimal"
        value={item.quantity}
        fault={wrong('quantityHundredths')}
        onText={(quantity) => onChange({ quantity })}
      />
      <SelectField
        label="Priced"
        value={item.rule}
        options={rules}
        fault={wrong('priceRule')}
        onPick={(rule) => onChange({ rule })}
      />
      <TextField
        label={`${amountWord[item.rule]}, ${sign}`}
        inputMode="decimal"
        value={item.amount}
        fault={wrong('amount') ?? wrong(pointer)}
        onText={(amount) => onChange({ amount })}
      />
      {item.rule === 'margin' && (
        <TextField
          label="Margin, per cent"
          hint="Empty: the shop’s own"
          inputMode="decimal"
          required={false}
          value={item.margin}
          fault={wrong('marginPpm')}
          onText={(margin) => onChange({ margin })}
        />
      )}
      {item.kind === 'part' && <PartFields {...{ item, wrong, onChange, sign }} />}
      <button type="button" className="plain" onClick={onRemove}>
        Take out<span className="vh"> {item.name || 'this item'}</span>
      </button>
    </div>
  );
}

function PartFields({ item, sign, wrong, onChange }: Omit<RowProps, 'onRemove'>) {
  return (
    <>
      <TextField
        label="Part number"
        required={false}
        maxLength={60}
        value={item.partNumber}
        fault={wrong('partNumber')}
        onText={(partNumber) => onChange({ partNumber })}
      />
      <SelectField
        label="Condition"
        value={item.condition}
        options={conditions}
        fault={wrong('condition')}
        onPick={(condition) => onChange({ condition })}
      />
      <SelectField
        label="Source"
        value={item.source}
        options={sources}
        fault={wrong('source')}
        onPick={(source) => onChange({ source })}
      />
      <TextField
        label={`Core deposit, ${sign}`}
        inputMode="decimal"
        required={false}
        value={item.core}
        fault={wrong('coreCents')}
        onText={(core) => onChange({ core })}
      />
    </>
  );
}
