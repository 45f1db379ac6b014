import type { PlanSettings, PlanSettingsRequest } from '../api/plan-types.js';
import { count, span } from './words.js';

/** What is typed, as text; figures are whole. */
export type Draft = Readonly<Record<FigureName, string>> & { readonly mode: PlanSettings['mode'] };
export type FigureName =
  | 'lateness'
  | 'startMoved'
  | 'hourMoved'
  | 'technicianChanged'
  | 'bayChanged'
  | 'nearMinutes'
  | 'frozenMinutes'
  | 'horizonDays';

export interface Figure {
  readonly name: FigureName;
  /** Where it stands in the request, as faults point to it. */
  readonly pointer: string;
  readonly label: string;
  readonly hint: string;
  readonly words: (figure: number) => string;
}

const weight = (
  name: Exclude<FigureName, 'frozenMinutes' | 'horizonDays'>,
  label: string,
  hint: string,
): Figure => ({
  ...{ name, label, hint },
  pointer: `/weights/${name}`,
  words: span,
});

/** Each figure with what it means, in minutes of lateness where it weighs something. */
export const FIGURES: readonly Figure[] = [
  {
    ...weight(
      'lateness',
      'A minute after the promise counts as',
      'All figures below are told in such minutes. A higher one puts promises before calm.',
    ),
    words: (figure) => count(figure, 'time', 'times'),
  },
  weight(
    'startMoved',
    'Work begins at another time',
    'So many minutes of lateness must be saved before a work order begins at another time than planned.',
  ),
  weight(
    'hourMoved',
    'Each hour by which it moves',
    'So many more must be saved for every hour that it moves.',
  ),
  weight(
    'technicianChanged',
    'Another technician does it',
    'So many must be saved before work goes from one technician to another.',
  ),
  weight('bayChanged', 'It is done in another bay', 'So many must be saved before work goes to another bay.'),
  weight(
    'nearMinutes',
    'How near a change counts whole (minutes)',
    'Work that would have begun within so long from now counts whole, later work three tenths of it.',
  ),
  {
    name: 'frozenMinutes',
    pointer: '/frozenMinutes',
    label: 'What begins soon stays (minutes)',
    hint: 'What begins within so long from now keeps its place unless it cannot.',
    words: span,
  },
  {
    name: 'horizonDays',
    pointer: '/horizonDays',
    label: 'How far ahead (days)',
    hint: 'Work that finds no room within so many days stays without a place.',
    words: (figure) => count(figure, 'day'),
  },
];

export const MODES: readonly (readonly [PlanSettings['mode'], string])[] = [
  ['by-hand', 'People place all work. The plan moves nothing and only says which promises no longer hold.'],
  ['propose', 'The plan says what it would change. A person accepts all of it or leaves it as it is.'],
  ['apply', 'The plan changes at once and tells here what it changed. What people pinned stays.'],
];

export const draftOf = ({ mode, weights, frozenMinutes, horizonDays }: PlanSettings): Draft => ({
  mode,
  lateness: String(weights.lateness),
  startMoved: String(weights.startMoved),
  hourMoved: String(weights.hourMoved),
  technicianChanged: String(weights.technicianChanged),
  bayChanged: String(weights.bayChanged),
  nearMinutes: String(weights.nearMinutes),
  frozenMinutes: String(frozenMinutes),
  horizonDays: String(horizonDays),
});

/** NaN for what is no whole figure: the server names the field. */
export const figureOf = (text: string): number => (/^\d+$/.test(text.trim()) ? Number(text) : Number.NaN);

export const requestOf = (draft: Draft): PlanSettingsRequest => ({
  mode: draft.mode,
  weights: {
    lateness: figureOf(draft.lateness),
    startMoved: figureOf(draft.startMoved),
    hourMoved: figureOf(draft.hourMoved),
    technicianChanged: figureOf(draft.technicianChanged),
    bayChanged: figureOf(draft.bayChanged),
    nearMinutes: figureOf(draft.nearMinutes),
  },
  frozenMinutes: figureOf(draft.frozenMinutes),
  horizonDays: figureOf(draft.horizonDays),
});
