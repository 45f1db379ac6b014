import { compareWhatIfs } from '#libs/what-if';
import type { WhatIfThread } from '#server/modules/what-ifs/answering/what-if-thread';
import type { WhatIfQuestion } from '#server/modules/what-ifs/data/what-if-question';
import { floorOf, yearOf } from '../builders/what-if.js';

/** The built class, which has its thread's file beside it. */
async function builtThread(): Promise<WhatIfThread> {
  const built = new URL(
    '../../dist/apps/server/modules/what-ifs/answering/what-if-thread.js',
    import.meta.url,
  );
  const { WhatIfThread: Built } = (await import(built.href)) as { WhatIfThread: new () => WhatIfThread };
  return new Built();
}

const question = (weeks: number): WhatIfQuestion => ({
  ...{ floor: floorOf(2, 2), year: yearOf(3, weeks), seeds: [1, 2] },
  alternatives: [{ name: 'one more technician', changes: [{ kind: 'technician', like: 'technician 1' }] }],
  basis: { source: 'history', repairOrders: 0, finishedWork: 0, from: '', to: '', assumed: [] },
});

describe('the thread that replays years', () => {
  it('answers as the library does, while whoever asked goes on', async () => {
    const thread = await builtThread();
    let ticks = 0;
    const ticking = setInterval(() => (ticks += 1), 10);
    const asked = question(4);
    const found = await thread.answer(asked, new AbortController().signal);
    clearInterval(ticking);
    expect(found).toEqual(
      compareWhatIfs(asked.floor, asked.year, asked.alternatives, { seeds: asked.seeds }),
    );
    expect(ticks).toBeGreaterThan(5);
  });

  it('ends at once when it is to, and says so when the question makes no sense', async () => {
    const thread = await builtThread();
    const stop = new AbortController();
    const began = Date.now();
    const answer = thread.answer(question(52), stop.signal);
    setTimeout(() => stop.abort(), 300);
    await expect(answer).rejects.toThrow('the thread that replays years has ended');
    expect(Date.now() - began).toBeLessThan(5000);
    await expect(thread.answer(question(4), stop.signal)).rejects.toThrow(/abort/i);
    await expect(
      thread.answer(null as unknown as WhatIfQuestion, new AbortController().signal),
    ).rejects.toThrow(/null/);
  });
});
