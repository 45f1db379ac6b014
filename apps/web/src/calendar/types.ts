import type { Reply } from '../api/types.js';

export type Calendar = Reply<'/api/v1/calendar', 'get'>;
export type Absence = Calendar['absences'][number];
export type BayClosure = Calendar['bayClosures'][number];
export type ToolClosure = Calendar['toolClosures'][number];
export type ClosedDay = Calendar['closedDays'][number];
export type PlannedWork = Absence['planned'][number];
export type Technician = Reply<'/api/v1/technicians', 'get'>['items'][number];
export type BayOfShop = Reply<'/api/v1/bays', 'get'>['items'][number];
export type ToolOfShop = Reply<'/api/v1/special-tools', 'get'>['items'][number];

/** Those that can be away or out of service. */
export interface Floor {
  readonly technicians: readonly Technician[];
  readonly bays: readonly BayOfShop[];
  readonly tools: readonly ToolOfShop[];
}
