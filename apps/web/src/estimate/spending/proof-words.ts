interface Proof {
  readonly proven: boolean;
  readonly benefit: number;
  readonly upperBound: number;
}

/** Whether anything better can exist, in a sentence. */
export function proofWords({ proven, benefit, upperBound }: Proof): string {
  if (proven) return 'No other set of these lines does more good for this sum: every one was ruled out.';
  const gap = benefit > 0 ? Math.max(0, (upperBound - benefit) / benefit) : 1;
  return `The best that was found in the time given. Another set could do at most ${Math.ceil(gap * 100)} % more good.`;
}
