import { ok } from '#libs/kernel';
import { roundPunch } from '#libs/time';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

export const punch: Computation = {
  name: 'punch',
  shape: '{punch: "07:52:29", increment: "five" | "tenth" | "quarter"} -> {rounded: "07:50"}',
  run: (element) => {
    const read = new FieldReader(element);
    const time = read.text('punch');
    const increment = read.oneOf('increment', ['five', 'tenth', 'quarter']);
    const rounded = read.parsed('punch', roundPunch(time, increment), '');
    return read.answer(() => ok({ rounded }));
  },
};
