import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import type { Alternative, FloorChange } from '#libs/what-if';
import type { WhatIfAlternativeRequest, WhatIfChangeRequest } from '../dto/what-if.request.js';
import type { FloorFacts } from '../queries/what-if-shop.query.js';

const DAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

interface Named {
  readonly change: FloorChange;
  readonly words: string;
}

/** What was asked as the library takes it, each with words for people; or every field that is not right. */
export function alternativesAsked(
  alternatives: readonly WhatIfAlternativeRequest[],
  facts: FloorFacts,
): Result<Alternative[]> {
  const fields: FieldFault[] = [];
  const asked = alternatives.map(({ changes }, i) => {
    if (changes.length === 0)
      fields.push({
        pointer: `/alternatives/${i}/changes`,
        detail: 'Say at least one thing that would be different.',
      });
    const named = changes.flatMap((change, k) => {
      const found = changeAsked(change, facts);
      if (!('pointer' in found)) return [found];
      fields.push({ ...found, pointer: `/alternatives/${i}/changes/${k}/${found.pointer}` });
      return [];
    });
    return { name: named.map(({ words }) => words).join(', '), changes: named.map(({ change }) => change) };
  });
  if (alternatives.length === 0)
    fields.push({ pointer: '/alternatives', detail: 'Give at least one thing to compare with.' });
  return fields.length === 0
    ? ok(asked)
    : fail('request-invalid', 'Look at what would be different.', { fields });
}

function changeAsked(change: WhatIfChangeRequest, facts: FloorFacts): Named | FieldFault {
  const { kind, id = '' } = change;
  const unknown = (what: string): FieldFault => ({
    pointer: 'id',
    detail: `Give the id of ${what} of this shop that is in use.`,
  });
  const nameIn = (things: readonly { id: string; name: string }[]): string | undefined =>
    things.find((one) => one.id === id.toLowerCase())?.name;
  switch (kind) {
    case 'bay':
    case 'bay-away': {
      const name = nameIn(facts.bays);
      if (name === undefined) return unknown('a bay');
      const bay = id.toLowerCase();
      return kind === 'bay'
        ? { change: { kind, like: bay }, words: `One more bay like ${name}` }
        : { change: { kind, bay }, words: `Without ${name}` };
    }
    case 'technician':
    case 'technician-away': {
      const name = nameIn(facts.technicians);
      if (name === undefined) return unknown('a technician');
      const technician = id.toLowerCase();
      return kind === 'technician'
        ? { change: { kind, like: technician }, words: `One more technician like ${name}` }
        : { change: { kind, technician }, words: `Without ${name}` };
    }
    case 'tool': {
      const name = nameIn(facts.tools);
      if (name === undefined) return unknown('a special tool');
      return { change: { kind, tool: id.toLowerCase() }, words: `One more ${name}` };
    }
    case 'day-open':
      return dayOpenAsked(change, facts);
  }
}

function dayOpenAsked(change: WhatIfChangeRequest, { technicians }: FloorFacts): Named | FieldFault {
  const { weekday, fromMinute, toMinute } = change;
  const technicianIds = change.technicianIds?.map((id) => id.toLowerCase());
  if (weekday === undefined)
    return { pointer: 'weekday', detail: 'Say which day: 1 is Monday, 7 is Sunday.' };
  if (fromMinute === undefined || toMinute === undefined || fromMinute >= toMinute)
    return {
      pointer: 'toMinute',
      detail: 'Say from when to when, in minutes since midnight; it runs forward.',
    };
  const names = technicians.filter(({ id }) => technicianIds?.includes(id));
  if (technicianIds !== undefined && (names.length === 0 || names.length < new Set(technicianIds).size))
    return {
      pointer: 'technicianIds',
      detail: 'Name technicians of this shop who work here, or leave it out.',
    };
  const who = technicianIds === undefined ? '' : ` with ${names.map(({ name }) => name).join(', ')}`;
  return {
    change: { kind: 'day-open', weekday, from: fromMinute, to: toMinute, technicians: technicianIds },
    words: `Open on ${DAYS[weekday - 1] ?? ''} ${clock(fromMinute)} to ${clock(toMinute)}${who}`,
  };
}

const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
