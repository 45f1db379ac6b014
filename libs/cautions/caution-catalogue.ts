import { CAUTION_IDS, type Caution, type CautionId } from './caution.js';

type Text = Omit<Caution, 'id'>;

const ALOIM = 'ANSI/ALI ALOIM, safe operation of automotive lifts: outline of its duties';

const TEXTS: Readonly<Record<CautionId, Text>> = {
  'LIFT-01': {
    text: 'Know what the car weighs and where its weight lies. Stay within the rated capacity of the lift and of each arm.',
    source: `${ALOIM}; public safety manual for auto repair shops`,
    basis: 'read',
  },
  'LIFT-02': {
    text: 'Use the lifting points that the vehicle maker names. If you cannot find them or they are rotten, ask before you lift.',
    source: ALOIM,
    basis: 'read',
  },
  'LIFT-03': {
    text: 'Only trained people work the lift. Look it over before the first car of the day; report a fault and lock it out.',
    source: ALOIM,
    basis: 'read',
  },
  'LIFT-04': {
    text: 'A qualified lift inspector looks at the lift at least once a year. Without a current inspection it stays empty.',
    source: 'ANSI/ALI ALOIM as reported in the trade press',
    basis: 'read',
  },
  'LIFT-05': {
    text: 'Pads and adapters must be made for this lift. Nothing home-made, no timber.',
    source: `${ALOIM}; ANSI/ALI ALCTV`,
    basis: 'read',
  },
  'LIFT-06': {
    text: 'Raise the car a little, rock it and look at every pad. Then go up, and set it on the locks before anyone goes under.',
    source: 'Trade practice taught for safe lifting',
    basis: 'memory',
  },
  'LIFT-07': {
    text: 'Taking an engine, gearbox or axle out shifts the weight. Put stands under the car before the heavy part comes off.',
    source: 'Trade practice taught for safe lifting',
    basis: 'memory',
  },
  'HV-01': {
    text: 'High voltage: trained people only. Service disconnect out and kept, wait as long as the maker says, then prove it dead with a CAT III meter and 1,000 V gloves.',
    source: "Vehicle makers' procedures; NFPA 70E; 29 CFR 1910.333",
    basis: 'memory',
  },
  'HV-02': {
    text: 'Lock and tag the drive battery out for as long as anyone works on it, so that nobody can bring it back.',
    source: '29 CFR 1910.147 as summarised for auto shops',
    basis: 'read',
  },
  'SRS-01': {
    text: "Airbags and belt tensioners: battery off, wait the maker's time, no meter on their wires. Carry a live module facing away from you.",
    source: "Vehicle makers' procedures",
    basis: 'memory',
  },
  'FUEL-01': {
    text: 'Fuel can escape: no flame, spark or hot lamp near it, doors open, class B extinguisher at hand. Catch it, and tag the car so that nobody starts it.',
    source: "29 CFR 1910.106; vehicle makers' procedures",
    basis: 'memory',
  },
  'AC-01': {
    text: 'The refrigerant circuit is opened only by a person certified under an approved programme, with approved equipment.',
    source: '40 CFR 82.34(a)',
    basis: 'read',
  },
  'CO-01': {
    text: 'An engine that runs indoors has its exhaust led outside. The fumes of one car can kill.',
    source: 'Textbooks of the trade, chapters on shop safety',
    basis: 'read',
  },
  'ASB-01': {
    text: 'Brake and clutch dust may hold asbestos: wet it or use a sealed extractor. Never blow it off.',
    source: '29 CFR 1910.1001(f)(3) and appendix F',
    basis: 'memory',
  },
  'SPRING-01': {
    text: 'Coil springs, torsion bars and gas struts hold energy. Use the right compressor and keep out of the line of fire.',
    source: 'Trade practice',
    basis: 'memory',
  },
  'WHEEL-01': {
    text: "Wheel nuts to the maker's torque, by wrench. Tell the customer when to have them checked again.",
    source: 'Trade practice',
    basis: 'memory',
  },
  'HAZ-01': {
    text: 'Read the safety data sheet before you use a chemical. The sheets are where everybody can reach them.',
    source: '29 CFR 1910.1200; textbooks of the trade',
    basis: 'read',
  },
  'STALL-01': {
    text: 'This car is marked Unsafe: no road test until that is repaired. Write down who drove, when, and the odometer out and in.',
    source: 'A rule of this program',
    basis: 'own',
  },
};

/** Every caution, in the order in which a ticket lists them. */
export const CAUTIONS: readonly Caution[] = CAUTION_IDS.map((id) => ({ id, ...TEXTS[id] }));

export function caution(id: CautionId): Caution {
  return { id, ...TEXTS[id] };
}
