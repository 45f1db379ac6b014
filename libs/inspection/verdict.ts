/** How a part is. `unseen`: it could not be reached, and the reason is written down. */
export const VERDICTS = ['sound', 'watch', 'repair', 'unseen'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** Whether the car may be driven with it; a fact of its own beside how bad the part is. */
export const MAY_DRIVE = ['yes', 'to-the-shop-only', 'no'] as const;
export type MayDrive = (typeof MAY_DRIVE)[number];
