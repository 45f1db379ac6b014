import { useRef, useState } from 'react';
import { inShopTime } from '../../board/zone-time.js';
import type { NewLink } from '../../api/estimate-types.js';
import { Field } from '../../ui/field.js';
import { today } from '../today.js';

interface LinkProps {
  readonly link: NewLink;
  readonly zone: string;
  readonly onClose: () => void;
}

/** The owner's link. It is in no list and in no log: whoever has it can answer, and it is shown this once. */
export function LinkShown({ link, zone, onClose }: LinkProps) {
  const field = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState('');
  const copy = async (): Promise<void> => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(link.url);
      setSaid('Copied.');
    } catch {
      // Plain http has no clipboard: the text is selected, the keys do the rest.
      setSaid('It is selected: copy it with Ctrl + C.');
    }
  };
  return (
    <div className="write">
      <p>
        Give this to the owner now. <b>It is shown this once</b>; it opens until{' '}
        {inShopTime(link.expiresAt, zone, today(zone))}.
      </p>
      <Field label="The owner’s link">
        {(attributes) => (
          <input {...attributes} ref={field} readOnly className="num" value={link.url} autoFocus />
        )}
      </Field>
      <div className="acts">
        <button type="button" className="button main" onClick={() => void copy()}>
          Copy the link
        </button>
        <button type="button" className="button" onClick={onClose}>
          Done
        </button>
        <span role="status" className="hint">
          {said}
        </span>
      </div>
    </div>
  );
}
