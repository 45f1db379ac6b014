import { useState } from 'react';
import { instantOf } from '../board/instant-of.js';
import { today } from '../estimate/today.js';
import { SelectField } from '../ui/select-field.js';
import { TextField } from '../ui/text-field.js';
import { type ClosureWish, plannedWords, takeOut } from './acts.js';
import { DayAndTime, Either, FormSlip } from './form-slip.js';
import { bayName, unitName } from './names.js';
import type { Floor } from './types.js';
import { type FormProps, useForm } from './use-form.js';

interface ClosureProps extends FormProps {
  readonly floor: Floor;
  readonly zone: string;
}
interface Draft {
  /** An entry of the list: the id of a bay, or of a tool with the number of its unit. */
  readonly what: string;
  readonly begins: 'now' | 'later';
  readonly startDay: string;
  readonly startTime: string;
  readonly ends: 'unknown' | 'known';
  readonly endDay: string;
  readonly endTime: string;
  readonly reason: string;
}

interface Thing {
  readonly key: string;
  readonly words: string;
  readonly what: ClosureWish['what'];
}

const thingsOf = ({ bays, tools }: Floor): Thing[] => [
  ...bays
    .filter(({ isActive }) => isActive)
    .map((bay) => ({ key: bay.id, words: bayName(bays, bay.id, bay.name), what: { bayId: bay.id } })),
  ...tools.flatMap((tool) =>
    Array.from({ length: tool.units }, (_, at) => ({
      key: `${tool.id} ${at + 1}`,
      words: unitName(tools, tool.id, tool.name, at + 1),
      what: { toolId: tool.id, unit: at + 1 },
    })),
  ),
];

function wishOf(draft: Draft, what: ClosureWish['what'], zone: string): ClosureWish {
  const at = (day: string, time: string): string => new Date(instantOf(day, time, zone)).toISOString();
  return {
    what,
    ...(draft.begins === 'later' ? { startsAt: at(draft.startDay, draft.startTime) } : {}),
    endsAt: draft.ends === 'known' ? at(draft.endDay, draft.endTime) : null,
    reason: draft.reason,
  };
}

/** A lift or a tool goes out of service, now or later, until somebody knows or nobody does. */
export function ClosureForm(props: ClosureProps) {
  const { floor, zone, onClose } = props;
  const day = today(zone);
  const things = thingsOf(floor);
  const [draft, setDraft] = useState<Draft>({
    what: '',
    begins: 'now',
    startDay: day,
    startTime: '08:00',
    ends: 'unknown',
    endDay: day,
    endTime: '17:00',
    reason: '',
  });
  const put = (change: Partial<Draft>): void => setDraft((before) => ({ ...before, ...change }));
  const thing = things.find(({ key }) => key === draft.what);
  const { wrong, ...form } = useForm(
    props,
    () => takeOut(wishOf(draft, thing?.what ?? { bayId: '' }, zone)),
    ({ value }) =>
      `${thing?.words ?? 'It'} ${draft.begins === 'now' ? 'is' : 'will be'} out of service. ${plannedWords(value.planned)}`,
  );
  return (
    <FormSlip title="Take out of service" act="Take out of service" {...form} onClose={onClose}>
      <SelectField
        label="What"
        value={draft.what}
        required
        options={[['', 'Choose'], ...things.map(({ key, words }) => [key, words] as const)]}
        onPick={(what) => put({ what })}
      />
      <TextField
        label="Reason"
        maxLength={200}
        value={draft.reason}
        fault={wrong('/reason')}
        onText={(reason) => put({ reason })}
      />
      <Either
        legend="From"
        value={draft.begins}
        options={[
          ['now', 'Now'],
          ['later', 'A later time'],
        ]}
        onPick={(begins) => put({ begins })}
      />
      {draft.begins === 'later' && (
        <DayAndTime
          label="Out from"
          day={draft.startDay}
          time={draft.startTime}
          fault={wrong('/startsAt')}
          onDay={(startDay) => put({ startDay, ...(draft.endDay < startDay ? { endDay: startDay } : {}) })}
          onTime={(startTime) => put({ startTime })}
        />
      )}
      <Either
        legend="Expected back"
        value={draft.ends}
        options={[
          ['unknown', 'Nobody knows yet'],
          ['known', 'At a time'],
        ]}
        onPick={(ends) => put({ ends })}
      />
      {draft.ends === 'known' && (
        <DayAndTime
          label="Back on"
          day={draft.endDay}
          time={draft.endTime}
          fault={wrong('/endsAt')}
          onDay={(endDay) => put({ endDay })}
          onTime={(endTime) => put({ endTime })}
        />
      )}
    </FormSlip>
  );
}
