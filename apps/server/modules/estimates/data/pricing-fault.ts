import { fail, type Failed, type Fault } from '#libs/kernel';

/** What a fault of the computations means to whoever asked: their own words under the codes of the table. */
export function pricingFault(fault: Fault): Failed {
  switch (fault.code) {
    case 'line-unknown':
      return fail('line-not-in-revision', fault.detail);
    case 'step-hours-differ':
      return fail(
        'step-hours-differ',
        'Two lines of this revision hold the same step with different hours, because the catalogue changed in between. Save the operations of both lines again.',
      );
    case 'position-missing':
    case 'position-unfit':
      return fail('position-not-possible', fault.detail);
    case 'package-hours-impossible':
      return fail('request-invalid', fault.detail, { facts: fault.facts ?? {} });
    case 'revision-empty':
    case 'line-words-missing':
      return { ok: false, fault };
    default:
      return fail('request-invalid', `The figures cannot be priced: ${fault.detail}`, {
        fields: fault.fields ?? [],
      });
  }
}
