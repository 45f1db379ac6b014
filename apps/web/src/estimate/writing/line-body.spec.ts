import type { Line } from '../../api/estimate-types.js';
import { lineBody } from './line-body.js';
import { draftOf, newItem } from './line-draft.js';

const written = { ...draftOf(null), title: ' Wiper blades ' };

describe('a line as it goes to the server', () => {
  it('holds what was written and nothing else', () => {
    expect(lineBody(written, null)).toEqual({ body: { title: 'Wiper blades' }, faults: [] });
  });

  it('turns hours, amounts and per cents into whole hundredths, cents and millionths', () => {
    const draft = {
      ...written,
      hours: '1.5',
      hoursSource: 'own time',
      labourOff: '12.5',
      offReason: 'regular',
      items: [{ ...newItem(), name: 'Blade', quantity: '2', amount: '14,90' }],
    };
    expect(lineBody(draft, null).body).toMatchObject({
      enteredHundredths: 150,
      enteredSource: 'own time',
      discount: { labourPpm: 125_000, reason: 'regular' },
      items: [{ quantityHundredths: 200, unitPriceCents: 1490, condition: 'new', source: 'supplier' }],
    });
  });

  it('prices from the cost when the shop has a rule for it', () => {
    const items = [{ ...newItem(), name: 'Blade', rule: 'matrix' as const, amount: '9' }];
    const [item] = lineBody({ ...written, items }, null).body.items as Record<string, unknown>[];
    expect(item).toMatchObject({ priceRule: 'matrix', unitCostCents: 900 });
    expect(item).not.toHaveProperty('unitPriceCents');
  });

  it('says which field is not a number, and where', () => {
    const items = [{ ...newItem(), name: 'Blade', amount: 'cheap' }];
    expect(lineBody({ ...written, hours: 'two', items }, null).faults.map(({ pointer }) => pointer)).toEqual([
      '/enteredHundredths',
      '/items/0/amount',
    ]);
  });

  it('sends of a changed line only what changed', () => {
    const line = {
      title: 'Old',
      explanation: 'why',
      consequence: null,
      findings: [],
      operations: [],
      items: [],
      enteredHundredths: 80,
      enteredSource: 'own time',
    } as unknown as Line;
    const before = draftOf(line);
    expect(lineBody({ ...before, title: 'New' }, before).body).toEqual({ title: 'New' });
    expect(lineBody({ ...before, hours: '' }, before).body).toEqual({
      enteredHundredths: null,
      enteredSource: null,
    });
  });
});
