import type { SubmitEvent } from 'react';
import { call, ifMatch } from '../../api/client.js';
import type { Line } from '../../api/estimate-types.js';
import { fieldFault } from '../../ui/field.js';
import { SelectField } from '../../ui/select-field.js';
import { TextArea } from '../../ui/text-area.js';
import { TextField } from '../../ui/text-field.js';
import { useFirstField } from '../../ui/use-first-field.js';
import { stakeWord } from '../words.js';
import { FormActs } from './form-acts.js';
import { FormRefusal } from './form-refusal.js';
import { ItemRows } from './item-rows.js';
import { lineBody } from './line-body.js';
import { type LineDraft, draftOf } from './line-draft.js';
import { FindingTicks, LineTicks } from './line-ticks.js';
import { LineReductions } from './line-reductions.js';
import { OperationSearch } from './operation-search.js';
import { unreadable } from './read-figures.js';
import { submitKeys } from './submit-keys.js';
import { useAct } from './use-act.js';
import { useKept } from './use-kept.js';
import type { WritingProps } from './writing-dialog.js';

export interface DraftProps {
  readonly draft: LineDraft;
  readonly wrong: (pointer: string) => string | undefined;
  readonly change: (change: Partial<LineDraft>) => void;
}

const stakes = [['', 'As the finding says'], ...Object.entries(stakeWord)] as [LineDraft['stake'], string][];
const POINTERS =
  /^\/(title|explanation|consequence|stake|enteredHundredths|enteredSource|operations|items|discount)\b/;

/** One proposed piece of work: what, why, which operations, what is sold with it, and what is taken off. */
export function LineForm(props: WritingProps & { readonly line: Line | null }) {
  const { line, order, estimate, read, say, onClose } = props;
  const form = useFirstField();
  const key = line ? `line ${line.id}` : `new line ${order.id}`;
  const [draft, setDraft, forget] = useKept<LineDraft>(key, () => draftOf(line));
  const act = useAct(read);
  const siblings = estimate.revisions.find((one) => one.state === 'draft')?.lines ?? [];
  const shared: DraftProps = {
    draft,
    wrong: (pointer) => fieldFault(act.fault?.fields, pointer),
    change: (change) => setDraft({ ...draft, ...change }),
  };

  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const { body, faults } = lineBody(draft, line && draftOf(line));
    if (faults.length > 0) {
      act.refuse(unreadable(faults));
      return;
    }
    const current = siblings.find((one) => one.id === line?.id) ?? line;
    const saved = await act.run(() =>
      line && current
        ? call('patch', '/api/v1/lines/{id}', {
            path: { id: line.id },
            headers: ifMatch(act.stale ? current.version : line.version),
            body,
          })
        : call('post', '/api/v1/repair-orders/{id}/lines', { path: { id: order.id }, body }),
    );
    if (!saved) return;
    forget();
    say(line ? `${draft.title} is changed.` : 'The line is on the draft.');
    onClose();
  };
  return (
    <form ref={form} className="write" onSubmit={(event) => void submit(event)} onKeyDown={submitKeys}>
      <FormRefusal fault={act.fault} shown={(pointer) => POINTERS.test(pointer)} />
      <Words {...shared} />
      <FindingTicks {...shared} order={order} />
      <OperationSearch {...shared} />
      <ItemRows {...shared} currency={estimate.currency} />
      <LineTicks {...shared} siblings={siblings.filter((one) => one.id !== line?.id)} />
      <LineReductions {...shared} />
      <FormActs word={line ? 'Save the line' : 'Add the line'} busy={act.busy} onCancel={onClose} />
    </form>
  );
}

function Words({ draft, wrong, change }: DraftProps) {
  return (
    <div className="two">
      <div className="whole">
        <TextField
          label="What is to be done"
          maxLength={120}
          required={draft.findingIds.length === 0}
          value={draft.title}
          fault={wrong('/title')}
          onText={(title) => change({ title })}
        />
      </div>
      <TextArea
        label="Why, as the owner reads it"
        maxLength={2000}
        value={draft.explanation}
        fault={wrong('/explanation')}
        onText={(explanation) => change({ explanation })}
      />
      <TextArea
        label="If it waits"
        maxLength={1000}
        value={draft.consequence}
        fault={wrong('/consequence')}
        onText={(consequence) => change({ consequence })}
      />
      <SelectField
        label="At stake if it waits"
        value={draft.stake}
        options={stakes}
        fault={wrong('/stake')}
        onPick={(stake) => change({ stake })}
      />
    </div>
  );
}
