/** How long to work on one instance. */
export interface Effort {
  readonly timeLimitMs: number;
  readonly now: () => number;
  readonly seed: number;
}

/** What a solver made of an instance, with what the independent checker says of it. */
export interface Answer {
  readonly objective: number;
  /** No plan is better than this. */
  readonly bound: number;
  /** Milliseconds until the first plan was there. */
  readonly firstMs: number;
  /** Broken rules in words; empty when the answer can be carried out and is worth what it says. */
  readonly flaws: readonly string[];
}

/** What a general solver made of the same instance; its objective is null when it found no plan in time. */
export interface GeneralAnswer {
  readonly objective: number | null;
  readonly proven: boolean;
  readonly ms: number;
}

/** One problem to solve; a file may hold several. */
export interface Instance {
  /** Which of the file's instances, from 1; null when the file holds one. */
  readonly number: number | null;
  readonly solve: (effort: Effort) => Answer;
  /** A general solver on the same instance; null, or not there, where none can be asked. */
  readonly against?: ((limitSeconds: number) => Promise<GeneralAnswer>) | null;
}

/** A public layout of instance files. */
export interface Format {
  readonly name: string;
  /** The section of a file of best-known values that has this format's. */
  readonly section: string;
  /** The instances in a text, or null when the text is not in this format. */
  readonly read: (text: string) => readonly Instance[] | null;
}
