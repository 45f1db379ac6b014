import type { Estimate, Order } from '../../api/estimate-types.js';
import { Dialog } from '../../ui/dialog.js';
import { lowerFirst } from '../words.js';
import type { Say, Writing } from '../writing.js';
import { ContingencyForm } from './contingency-form.js';
import { LineForm } from './line-form.js';
import { LinkForm, SendForm } from './send-form.js';
import { OrderDiscountForm } from './order-discount-form.js';
import { RemoveLine } from './remove-line.js';
import { ValueForm } from './value-form.js';

export interface WritingProps {
  readonly writing: Writing;
  readonly order: Order;
  readonly estimate: Estimate;
  readonly zone: string;
  readonly read: () => Promise<void>;
  readonly say: Say;
  readonly onClose: () => void;
}

/** Each thing to write, on a sheet of its own. */
export function WritingDialog(props: WritingProps) {
  return (
    <Dialog className="writing" title={titleOf(props.writing)} onClose={props.onClose}>
      <Form {...props} />
    </Dialog>
  );
}

function Form(props: WritingProps) {
  const { writing } = props;
  switch (writing.kind) {
    case 'line':
      return <LineForm {...props} line={writing.line} />;
    case 'remove-line':
      return <RemoveLine {...props} line={writing.line} />;
    case 'contingency':
      return <ContingencyForm {...props} line={writing.line} contingency={writing.contingency} />;
    case 'order-discount':
      return <OrderDiscountForm {...props} revision={writing.revision} />;
    case 'value':
      return <ValueForm {...props} />;
    case 'send':
      return <SendForm {...props} revision={writing.revision} />;
    case 'link':
      return <LinkForm {...props} revision={writing.revision} />;
  }
}

function titleOf(writing: Writing): string {
  switch (writing.kind) {
    case 'line':
      return writing.line ? `Change: ${writing.line.title}` : 'Write a line';
    case 'remove-line':
      return 'Take a line out';
    case 'contingency':
      return writing.contingency
        ? `If ${lowerFirst(writing.contingency.what)}`
        : 'What may happen on the way';
    case 'order-discount':
      return 'Discount on all of it';
    case 'value':
      return 'Value of the vehicle';
    case 'send':
      return `Send revision ${writing.revision.number}`;
    case 'link':
      return `A further link to revision ${writing.revision.number}`;
  }
}
