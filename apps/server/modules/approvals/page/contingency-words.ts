/** The sentences of the owner's pages about what may happen under way. */
export const CONTINGENCY_WORDS = {
  legend: (title: string) => `If something happens during: ${title}`,
  lead: 'This may happen once we begin:',
  chance: (chance: string) => `How likely: ${chance}.`,
  extra: (parts: readonly string[]) => `It would add ${parts.join(', ')}.`,
  hours: (hours: string) => `${hours}\u00a0h of labour`,
  upTo: (money: string) => `Up to ${money} more, tax included; nothing if it does not happen.`,
  agree: (money: string) => `Go ahead if it happens, up to ${money}`,
  askFirst: 'Leave it empty and we ask you first. It counts only with a yes to the work itself.',

  heading: 'Only if it happens',
  goAhead: (money: string) => `Go ahead, up to ${money}.`,
  ask: 'Ask me first.',
  note: 'You are charged only for what really happens, with the reason and a photo of it, and never more than this.',
  atMost: (money: string) => `At most ${money}, if all of this happens too`,

  happened: (when: string) => `It happened, ${when}:`,
  charged: (money: string, cap: string) => `${money} charged, of the ${cap} that you agreed to at most.`,
  already:
    'Something that you had agreed to in advance has happened in the meantime, and was done. Its answer stays; please call us.',
  photo: (what: string) => `Photo of what happened: ${what}`,
  stillAtMost: (money: string) => `Up to ${money} more only if what you agreed to in advance happens`,
} as const;
