import { ACTIONS } from './actions.js';
import type { Action } from './actions.js';
import { actionsOf } from './actions-of.js';
import { can } from './can.js';
import { ROLES } from './roles.js';
import type { Role } from './roles.js';

// The whole policy, written a second time by hand: F front desk, T technician, M manager, A administrator.
const EXPECTED: Readonly<Record<Action, string>> = {
  'session.own': 'FTMA',
  'shop.read': 'FTMA',
  'shop.configure': '...A',
  'staff.manage': '..MA',
  'device.enrol': '..MA',
  'floor.configure': '..MA',
  'calendar.write': 'F.MA',
  'catalogue.read': 'FTMA',
  'catalogue.write': '..MA',
  'template.write': '..MA',
  'customer.read': 'FTMA',
  'customer.write': 'F.MA',
  'vehicle.write': 'FTMA',
  'repair-order.open': 'F.MA',
  'repair-order.read': 'FTMA',
  'inspection.record': '.TMA',
  'finding.record': '.TMA',
  'photo.add': 'FTMA',
  'estimate.write': 'F.MA',
  'estimate.send': 'F.MA',
  'decision.record-for-owner': 'F.MA',
  'link.revoke': 'F.MA',
  'work-order.claim': '.TMA',
  'work-order.finish': '.TMA',
  'work-order.check': '.TMA',
  'contingency.trigger': 'FTMA',
  'assignment.write': 'F.MA',
  'part.receive': 'F.MA',
  'plan.decide': 'F.MA',
  'plan.configure': '..MA',
  'reservation.read': 'F.MA',
  'reservation.write': 'F.MA',
  'clock.own': '.TMA',
  'clock.close-for-other': '..MA',
  'clock.correct': '..MA',
  'attendance.own': 'FTMA',
  'board.read': 'FTMA',
  'review.read': '..MA',
  'what-if.ask': '..MA',
};

const letters: Readonly<Record<Role, string>> = {
  'front-desk': 'F',
  technician: 'T',
  manager: 'M',
  administrator: 'A',
};

describe('who may do what', () => {
  it('is exactly the table of roles and actions that the shop agreed on', () => {
    const table = Object.fromEntries(
      ACTIONS.map((action) => [
        action,
        ROLES.map((role) => (can([role], action) ? letters[role] : '.')).join(''),
      ]),
    );
    expect(table).toEqual(EXPECTED);
  });

  it('denies somebody without a role everything', () => {
    expect(actionsOf([])).toEqual([]);
  });

  it('denies an action or a role that the table does not know, inherited object members included', () => {
    for (const unknown of ['toString', 'constructor', '__proto__', 'repair-order.delete', '']) {
      expect(can(ROLES, unknown as Action)).toBe(false);
    }
    expect(can(['owner' as Role], 'repair-order.read')).toBe(false);
  });

  it('adds up the roles of a person who holds two, and never takes one away', () => {
    for (const action of ACTIONS) {
      for (const first of ROLES) {
        for (const second of ROLES) {
          expect(can([first, second], action)).toBe(can([first], action) || can([second], action));
        }
      }
    }
  });

  it('keeps every act that changes money away from a technician', () => {
    const moneyActs: Action[] = [
      'catalogue.write',
      'estimate.write',
      'estimate.send',
      'decision.record-for-owner',
      'part.receive',
      'clock.correct',
      'shop.configure',
    ];
    for (const action of moneyActs) expect(can(['technician'], action)).toBe(false);
  });
});
