import type { SubmitEvent } from 'react';
import { call, ifMatch } from '../../api/client.js';
import type { Line } from '../../api/estimate-types.js';
import { FormActs } from './form-acts.js';
import { FormRefusal } from './form-refusal.js';
import { currentVersion } from './current-version.js';
import { useAct } from './use-act.js';
import type { WritingProps } from './writing-dialog.js';

export function RemoveLine({ line, estimate, read, say, onClose }: WritingProps & { readonly line: Line }) {
  const act = useAct(read);
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const version = act.stale ? currentVersion(estimate, line) : line.version;
    const gone = await act.run(() =>
      call('delete', '/api/v1/lines/{id}', { path: { id: line.id }, headers: ifMatch(version) }),
    );
    if (!gone) return;
    say(`${line.title} is off the draft.`);
    onClose();
  };
  return (
    <form className="write" onSubmit={(event) => void submit(event)}>
      <FormRefusal fault={act.fault} shown={() => false} />
      <p>
        <b>{line.title}</b> leaves the draft, with its contingencies. The finding that it answers stays.
      </p>
      <FormActs word="Take it out" busy={act.busy} onCancel={onClose} />
    </form>
  );
}
