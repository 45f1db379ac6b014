/**
 * Every sentence of the owner's pages, in one place, so that a translation can come. What describes the work itself
 * (titles, verdicts, reasons) was written for this owner and is frozen with the revision.
 */
export const LANGUAGE = 'en';
/** Which wording an answer was given under; a change of `consent` or `promise` gets a new number. */
export const WORDING = 'owner-page/1';

const COUNT = ['', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine', 'Ten'];

export const WORDS = {
  title: (shop: string) => `Your car at ${shop}`,
  call: 'Call us',
  heading: (count: number) =>
    count === 1 ? 'One thing needs your answer' : `${COUNT[count] ?? count} things need your answer`,
  headingChange: 'Change an answer',
  car: (vehicle: string, plate: string | null, odometer: string) =>
    `${vehicle}${plate === null ? '' : `, plate ${plate}`}, ${odometer}`,
  reference: (order: number, revision: number) => `Repair order ${order}, revision ${revision}`,
  lead: (by: string, when: string) => `${by} wrote this for you on ${when}.`,
  how: 'Answer each one as you like: yes, not now, or no. You can also leave some for later.',
  promise: 'We do nothing and charge nothing that you have not said yes to.',

  waits: 'If it waits',
  measured: 'Measured',
  limit: (limit: string) => `limit ${limit}`,
  parts: 'Parts',
  labour: 'Labour',
  hours: (hours: string) => `${hours}\u00a0h`,
  labourOf: (hours: string) => `Labour ${hours}\u00a0h`,
  rest: 'Supplies, tax',
  deposit: (money: string) => `Parts hold a deposit of ${money} that you get back with the old part.`,
  alone: 'On its own',
  together: 'With all of these',
  shared: 'Work that several of them share is charged once, so together they cost less.',
  photo: (title: string, at: number) => `Photo ${at} of: ${title}`,
  begun: 'Work on this has begun. To change it, please call us.',
  legend: (title: string) => `Your answer to: ${title}`,

  approved: 'Yes',
  deferred: 'Not now',
  declined: 'No',
  open: 'No answer yet',
  running: 'You say yes to',
  taxIn: 'Tax and shop supplies are in it.',
  noRunning: 'You see the exact total on the next page.',
  hold: (when: string) => `This page opens and its prices hold until ${when}.`,
  look: 'Check my answers',
  nothingCounts: 'Nothing counts yet: you see your answers once more.',

  review: 'Are these your answers?',
  yes: 'You say yes to',
  later: 'Not now',
  no: 'You say no to',
  unanswered: 'No answer yet',
  unansweredNote: 'You can come back to these.',
  remind: 'Remind me on (if you like)',
  drive: (title: string, mayDrive: string) => `${title}: ${mayDrive}`,
  unsafeHeading: 'Unsafe, and not repaired',
  unsafe: 'You decide. Please talk to us before you drive.',
  saved: (money: string) => `Done together, these cost ${money} less than one by one.`,
  supplies: 'Shop supplies',
  total: 'Total',
  name: 'Your name',
  consent:
    'Typing your name and pressing the button signs these answers electronically. You may instead answer by phone or in person, and ask for a paper copy.',
  send: 'Send my answers',
  change: 'Change something',
  law: 'Local law decides what a shop must put in writing and how far a bill may differ from it. This page is not legal advice.',

  done: 'We have your answers',
  doneLead: (name: string, when: string) => `Given by ${name}, ${when}. The shop sees them now.`,
  answers: 'Your answers so far',
  keep: 'Print or save this page as your copy.',
  agreed: 'Agreed to in all',
  changeLink: 'Change or add an answer',
  mark: (sha: string) => `Fingerprint of what you were shown (SHA-256): ${sha}`,
  lookAgain: (day: string) => `We speak of it again on ${day}.`,

  nothingChosen: 'Please choose an answer for at least one of them.',
  nameMissing: 'Please type your name, so that the shop knows who answered.',
  dayWrong: 'Please give a day that exists, or leave it empty.',
  changed: 'The figures have changed since you saw them. These are the right ones: please look again.',
  workBegun: 'Work on one of them has begun in the meantime. Its answer stays; to change it, please call us.',
  closedStay: 'The car has been picked up, so answers can no longer change. Please call us.',
  busy: 'That did not go through. Please try again in a moment.',

  expired: 'This link has expired',
  revoked: 'This link was withdrawn',
  missing: 'There is no such page',
  closedNote: (shop: string) =>
    `Please call ${shop}: they will tell you how things stand or send a new link.`,
  missingNote: 'Please use the whole address that the shop sent you, or call the shop.',
} as const;
