import { Injectable } from '@nestjs/common';
import type { LiveChange, Tx } from '../database/tx.js';

/** What else a transaction does because of what it announced; usually `tx.enqueue`. What it announces itself is not reacted to. */
export type Reaction = (changes: readonly LiveChange[], tx: Tx) => void;

/** By which a module follows changes of others without their use cases knowing of it. */
@Injectable()
export class Reactions {
  private readonly all: { readonly kinds: ReadonlySet<string>; readonly react: Reaction }[] = [];

  /** Called once for each transaction that announced any of these kinds, with those changes, just before it is written. */
  on(kinds: readonly string[], react: Reaction): void {
    this.all.push({ kinds: new Set(kinds), react });
  }

  /** For the unit of work. */
  to(changes: readonly LiveChange[], tx: Tx): void {
    const announced = [...changes];
    for (const { kinds, react } of this.all) {
      const matching = announced.filter(({ kind }) => kinds.has(kind));
      if (matching.length > 0) react(matching, tx);
    }
  }
}
