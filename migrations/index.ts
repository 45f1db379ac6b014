import { Foundation1764000000001 } from './1764000000001-foundation.js';
import { People1764000000002 } from './1764000000002-people.js';
import { CustomersAndVehicles1764000000003 } from './1764000000003-customers-and-vehicles.js';
import { Floor1764000000004 } from './1764000000004-floor.js';
import { Catalogue1764000000005 } from './1764000000005-catalogue.js';
import { RepairOrdersAndInspections1764000000006 } from './1764000000006-repair-orders-and-inspections.js';
import { EstimatesAndDecisions1764000000007 } from './1764000000007-estimates-and-decisions.js';
import { WorkOrdersAndTime1764000000008 } from './1764000000008-work-orders-and-time.js';
import { Pricing1764000000009 } from './1764000000009-pricing.js';
import { Ranges1764000000010 } from './1764000000010-ranges.js';
import { Choices1764000000011 } from './1764000000011-choices.js';
import { Contingencies1764000000012 } from './1764000000012-contingencies.js';
import { Calendars1764000000013 } from './1764000000013-calendars.js';
import { Plans1764000000014 } from './1764000000014-plans.js';
import { Reservations1764000000015 } from './1764000000015-reservations.js';
import { Jobs1764000000016 } from './1764000000016-jobs.js';
import { WhatIfs1764000000017 } from './1764000000017-what-ifs.js';
import { PartExpectations1764000000018 } from './1764000000018-part-expectations.js';

/** In order. A list, not a file pattern: it is type-checked, and a bundle or a copy cannot lose one. */
export const migrations = [
  Foundation1764000000001,
  People1764000000002,
  CustomersAndVehicles1764000000003,
  Floor1764000000004,
  Catalogue1764000000005,
  RepairOrdersAndInspections1764000000006,
  EstimatesAndDecisions1764000000007,
  WorkOrdersAndTime1764000000008,
  Pricing1764000000009,
  Ranges1764000000010,
  Choices1764000000011,
  Contingencies1764000000012,
  Calendars1764000000013,
  Plans1764000000014,
  Reservations1764000000015,
  Jobs1764000000016,
  WhatIfs1764000000017,
  PartExpectations1764000000018,
];
