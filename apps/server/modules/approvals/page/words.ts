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
  needs: (title: string) => `Done only together with: ${title}.`,
  insteadOf: (title: string) => `One or the other: this, or ${title}. Please say yes to one of them only.`,
  withoutOther: (title: string, other: string) =>
    `“${title}” can only be done together with “${other}”. Please say yes to both or to neither.`,
  notBoth: (title: string, other: string) =>
    `“${title}” or “${other}”: one of them is enough. Please say yes to one only.`,
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

/** What the owner reads about doing what fits a sum. */
export const SPEND_WORDS = {
  heading: 'With a certain sum in mind?',
  lead: 'Type what you can spend now. You see what does the most for it, with tax in it. Nothing counts by looking.',
  beside: (money: string) => `It comes on top of the ${money} that you have said yes to.`,
  label: 'What I can spend now',
  look: 'Show what fits',
  wrong: (typed: string) =>
    typed === ''
      ? 'What I can spend now: please type a sum, such as 800 or 1250.50.'
      : `What I can spend now: “${typed}” is not a sum that we can read. Please type one such as 800 or 1250.50.`,
  busy: 'Many people are asking just now, so that we could not work it out. Please try again in a moment.',

  forSum: (money: string) => `For ${money}`,
  parked: 'If the car stays parked',
  parkedMore: 'If the car stays parked, this sum can do more',
  comesTo: (money: string) => `Together ${money}, tax included.`,
  left: (money: string) => `${money} is left.`,
  nothingFits: 'Nothing here fits this sum.',
  tooLittle: (sum: string, least: string) =>
    `${sum} does not make the car safe to drive. The least that does is ${least}.`,
  neverSafe: 'Nothing here makes the car safe to drive. Please talk to us.',
  waiting: 'These wait:',
  otherWay: 'Another way to do it is chosen.',
  drivable: 'Once this is done, nothing on this page keeps the car from being driven.',
  notDrivable: 'With this the car is not to be driven:',
  undone: (title: string) => `${title}: unsafe, and not repaired.`,
  notProven:
    'There are very many ways to combine these. This is the best that we found in the time; a slightly better one may exist.',
  whyThese: 'Why these?',
  weighed:
    'The shop gives each piece of work a weight and looks for the most weight that the sum can pay for.',
  take: 'Put this into my answers',
  takeParked: 'Put this into my answers; the car stays parked',
  taken: (money: string) =>
    `Your answers below are filled in for ${money}. Change any of them as you like; nothing counts until you send them.`,

  steps: 'Step by step, from the least that makes the car safe to all of it',
  stepsParked: 'Step by step, from the least to all of it',
  stepsNotSafe: 'None of these steps makes the car safe to drive.',
  stepsLead: 'Each step is the next sum that does more. Choose one to see it in full.',
  stepsNotProven: 'We may have missed a step that is slightly better.',
  first: 'The least that makes the car safe',
  all: 'All of it',
  most: 'The most that can be done together',
  adds: (titles: string) => `adds ${titles}`,
  swaps: (titles: string) => `in place of ${titles}`,
  value: (value: string, part: string) =>
    `The car is entered as worth ${value}; all of this would be ${part} % of that.`,
} as const;
