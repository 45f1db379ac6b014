import type { SubmitEvent } from 'react';
import type { FieldFault } from '#libs/kernel';
import { call, ifMatch } from '../../api/client.js';
import type { Contingency, ContingencyRequest, Line } from '../../api/estimate-types.js';
import { fieldFault } from '../../ui/field.js';
import { TextField } from '../../ui/text-field.js';
import { useFirstField } from '../../ui/use-first-field.js';
import { moneyOf } from '../money.js';
import { currentVersion } from './current-version.js';
import { FormActs } from './form-acts.js';
import { FormRefusal } from './form-refusal.js';
import { FigureReader, unreadable } from './read-figures.js';
import { submitKeys } from './submit-keys.js';
import { useAct } from './use-act.js';
import { useKept } from './use-kept.js';
import type { WritingProps } from './writing-dialog.js';

interface ContingencyDraft {
  readonly what: string;
  readonly chance: string;
  readonly hours: string;
  readonly part: string;
  readonly partPrice: string;
  readonly cap: string;
}

const plain = (hundredths: number): string => String(hundredths / 100);

const firstDraft = (of: Contingency | null): ContingencyDraft => ({
  what: of?.what ?? '',
  chance: of ? String(of.chancePpm / 10_000) : '',
  hours: of ? plain(of.hundredths) : '0',
  part: '',
  partPrice: '',
  cap: of ? plain(of.capCents) : '',
});

/** Reads the draft; a part is sent only if one is written, so that those of before stay. */
function bodyOf(draft: ContingencyDraft): { body: ContingencyRequest; faults: readonly FieldFault[] } {
  const reader = new FigureReader();
  const body: ContingencyRequest = {
    what: draft.what.trim(),
    chancePpm: reader.ppm('/chancePpm', draft.chance) ?? 0,
    hundredths: reader.hundredths('/hundredths', draft.hours, 'the hours'),
    capCents: reader.hundredths('/capCents', draft.cap, 'the most that is charged'),
  };
  if (draft.part.trim() !== '')
    body.items = [
      {
        kind: 'part',
        name: draft.part.trim(),
        condition: 'new',
        source: 'supplier',
        quantityHundredths: 100,
        unitPriceCents: reader.hundredths('/items/0/unitPriceCents', draft.partPrice, 'the price'),
      },
    ];
  return { body, faults: reader.faults };
}

interface ContingencyFormProps extends WritingProps {
  readonly line: Line;
  readonly contingency: Contingency | null;
}

/** If something happens: how likely, what it takes, and the most that is charged for it. */
export function ContingencyForm(props: ContingencyFormProps) {
  const { line, contingency, estimate, read, say, onClose } = props;
  const form = useFirstField();
  const key = `contingency ${contingency?.id ?? line.id}`;
  const [draft, setDraft, forget] = useKept(key, () => firstDraft(contingency));
  const act = useAct(read);
  const version = act.stale ? currentVersion(estimate, line) : line.version;

  const done = (words: string): void => {
    forget();
    say(words);
    onClose();
  };
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const { body, faults } = bodyOf(draft);
    if (faults.length > 0) {
      act.refuse(unreadable(faults));
      return;
    }
    const saved = await act.run(() =>
      contingency
        ? call('patch', '/api/v1/contingencies/{id}', {
            path: { id: contingency.id },
            headers: ifMatch(version),
            body,
          })
        : call('post', '/api/v1/lines/{id}/contingencies', { path: { id: line.id }, body }),
    );
    if (saved) done(`The contingency is on ${line.title}.`);
  };
  const remove = async (): Promise<void> => {
    if (!contingency) return;
    const gone = await act.run(() =>
      call('delete', '/api/v1/contingencies/{id}', {
        path: { id: contingency.id },
        headers: ifMatch(version),
      }),
    );
    if (gone) done('The contingency is taken off.');
  };
  return (
    <form ref={form} className="write" onSubmit={(event) => void submit(event)} onKeyDown={submitKeys}>
      <FormRefusal fault={act.fault} shown={(pointer) => /what|chance|hundredths|cap|items/.test(pointer)} />
      <p className="notice">
        On {line.title}. It is charged only if it happens, and never above what the owner agreed to.
      </p>
      <ContingencyFields
        draft={draft}
        wrong={(pointer) => fieldFault(act.fault?.fields, pointer)}
        sign={moneyOf(estimate.currency).sign}
        hadItems={(contingency?.items.length ?? 0) > 0}
        onChange={(part) => setDraft({ ...draft, ...part })}
      />
      {contingency && (
        <p>
          <button type="button" className="plain" disabled={act.busy} onClick={() => void remove()}>
            Take the contingency off
          </button>
        </p>
      )}
      <FormActs word={contingency ? 'Save it' : 'Add it'} busy={act.busy} onCancel={onClose} />
    </form>
  );
}

interface FieldsProps {
  readonly draft: ContingencyDraft;
  readonly wrong: (pointer: string) => string | undefined;
  readonly sign: string;
  readonly hadItems: boolean;
  readonly onChange: (part: Partial<ContingencyDraft>) => void;
}

function ContingencyFields({ draft, wrong, sign, hadItems, onChange }: FieldsProps) {
  return (
    <div className="two">
      <div className="whole">
        <TextField
          label="What may happen"
          hint="As the owner reads it: The line nut seizes"
          maxLength={200}
          value={draft.what}
          fault={wrong('/what')}
          onText={(what) => onChange({ what })}
        />
      </div>
      <TextField
        label="In how many of 100 cars like this"
        inputMode="decimal"
        value={draft.chance}
        fault={wrong('/chancePpm')}
        onText={(chance) => onChange({ chance })}
      />
      <TextField
        label="Extra hours then"
        inputMode="decimal"
        value={draft.hours}
        fault={wrong('/hundredths')}
        onText={(hours) => onChange({ hours })}
      />
      <TextField
        label="A part that it then takes"
        hint={hadItems ? 'Empty: those of before stay' : 'Empty: none'}
        required={false}
        maxLength={120}
        value={draft.part}
        fault={wrong('/items/0/name')}
        onText={(part) => onChange({ part })}
      />
      <TextField
        label={`Price of that part, ${sign}`}
        inputMode="decimal"
        required={draft.part.trim() !== ''}
        value={draft.partPrice}
        fault={wrong('/items/0/unitPriceCents')}
        onText={(partPrice) => onChange({ partPrice })}
      />
      <TextField
        label={`Never more than, ${sign}`}
        hint="Tax included; what the owner may agree to in advance"
        inputMode="decimal"
        value={draft.cap}
        fault={wrong('/capCents')}
        onText={(cap) => onChange({ cap })}
      />
    </div>
  );
}
