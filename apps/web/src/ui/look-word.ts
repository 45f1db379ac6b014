/** How a job's ticket is drawn: by edge, texture and word, never by hue. */
export type Look = 'planned' | 'clocked' | 'past-book' | 'paused' | 'held' | 'done';

export const lookWord: Readonly<Record<Look, string>> = {
  planned: 'Planned',
  clocked: 'On the clock',
  'past-book': 'Past book',
  paused: 'Paused',
  held: 'Held',
  done: 'Done',
};
