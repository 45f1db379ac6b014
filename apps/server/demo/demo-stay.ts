import type { Consequence } from '#libs/choice';
import type { Position } from '#libs/estimate';
import type { MayDrive } from '#libs/inspection';

/** Whole minutes before the moment at which the shop is made; times that are still to come are negative. */
export type Ago = number;

/** The people of the demonstration shop by their first names. */
export type Who = 'Wenna' | 'Bram' | 'Saffi' | 'Juno' | 'Mattis' | 'Orla';

/** What a technician saw that is not sound; `where` is "component@position" of the walk. */
export interface DemoSeen {
  readonly where: string;
  readonly verdict: 'watch' | 'repair';
  readonly mayDrive: MayDrive;
  readonly reading?: string;
  readonly lookAgainOdometer?: number;
  readonly note: string;
  readonly consequence: string;
}

/** A finding without a walk: the car came for one thing, and this is it. */
export interface DemoFound {
  readonly title: string;
  readonly mayDrive: MayDrive;
  readonly explanation: string;
  readonly consequence: string;
  readonly stake?: Consequence;
}

export interface DemoItem {
  readonly kind: 'part' | 'fluid';
  readonly name: string;
  readonly partNumber?: string;
  readonly quantityHundredths: number;
  readonly unitPriceCents: number;
  readonly unitCostCents: number;
  readonly condition?: 'new' | 'used' | 'rebuilt';
  readonly source?: 'stock' | 'supplier' | 'used';
  readonly coreCents?: number;
  /** Ordered and not here yet; the supplier named this time of tomorrow. */
  readonly expectedTomorrowAt?: string;
}

/** A place on the board: in minutes from the last full quarter hour, or at a time of tomorrow. */
export interface DemoPlace {
  readonly bay: number;
  readonly who: Who;
  readonly from: number | { readonly tomorrowAt: string };
  readonly minutes: number;
  /** Laid down, because the owner waits for it; the plan may move the others. */
  readonly isPinned?: boolean;
}

export interface DemoWork {
  readonly place?: DemoPlace;
  readonly on?: { readonly who: Who; readonly ago: Ago };
  readonly paused?: { readonly ago: Ago; readonly reason: string };
  readonly finished?: Ago;
  readonly checked?: { readonly who: Who; readonly ago: Ago };
  /** The title of the line that is done before. */
  readonly after?: string;
}

/** What may happen on a line, and whether the owner has agreed to it in advance. */
export interface DemoContingency {
  readonly what: string;
  readonly chancePpm: number;
  readonly hundredths: number;
  readonly capCents: number;
  readonly items: readonly DemoItem[];
  readonly agreed: boolean;
}

export interface DemoLine {
  readonly title: string;
  readonly found?: DemoFound;
  readonly operation: { readonly code: string; readonly positions: readonly Position[] };
  readonly items: readonly DemoItem[];
  readonly contingencies?: readonly DemoContingency[];
  /** How little and how much it may come to. */
  readonly spread?: {
    readonly lowHundredths: number;
    readonly highHundredths: number;
    readonly lowItemsCents: number;
    readonly highItemsCents: number;
  };
  readonly owner?: 'approved' | 'declined' | 'deferred';
  readonly work?: DemoWork;
}

/** One car in the shop and how far it has come. */
export interface DemoStay {
  readonly customer: { readonly displayName: string; readonly phone: string };
  readonly vehicle: {
    readonly make: string;
    readonly model: string;
    readonly modelYear: number;
    readonly colour: string;
    readonly plate: string;
    readonly weightKg: number;
    readonly heightMm: number;
    readonly valueCents?: number;
    readonly drivetrain?: 'combustion' | 'hybrid' | 'electric';
  };
  readonly odometerKm: number;
  readonly concern: string;
  readonly droppedOff: Ago;
  /** Hours from now; a car that waits for an answer has no promise yet. */
  readonly promisedInHours?: number;
  /** A walk that is under way: so many of its stations are done. */
  readonly walk?: {
    readonly by: Who;
    readonly began: Ago;
    readonly stations: number;
    readonly seen: readonly DemoSeen[];
  };
  readonly offer?: { readonly sent: Ago; readonly answered?: Ago; readonly lines: readonly DemoLine[] };
}
