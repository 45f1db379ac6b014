import type { PlanProblem } from '#libs/plan';
import type { PlanningThread } from '#server/modules/planning/planning-thread/planning-thread';

/** The built class, which has its thread's file beside it. */
async function builtThread(): Promise<PlanningThread> {
  const built = new URL(
    '../../dist/apps/server/modules/planning/planning-thread/planning-thread.js',
    import.meta.url,
  );
  const { PlanningThread: Built } = (await import(built.href)) as {
    PlanningThread: new () => PlanningThread;
  };
  return new Built();
}

describe('the thread that makes plans', () => {
  const problem: PlanProblem = {
    now: 0,
    technicians: [{ id: 'Ida', works: [[0, 600]] }],
    bays: [{ id: 'lift' }],
    repairOrders: ['a', 'b'].map((id) => ({
      id,
      operations: [{ id: `work on ${id}`, minutes: 60, bay: {} }],
    })),
  };
  const order = { id: 'c', operations: [{ id: 'work on c', minutes: 30, bay: {} }] };
  const few = { seed: 1, lookLimit: 200 };

  it('answers each kind of question, breaks on one that makes no sense, and is there again for the next', async () => {
    const thread = await builtThread();
    try {
      const made = await thread.ask({ what: 'plan', problem, ...few });
      if (!made.ok) throw new Error(made.fault.detail);
      expect(made.value.cost).toMatchObject({ unplaced: 0, finish: 180 });
      const before = { ...problem, previous: made.value.assignments };
      const again = await thread.ask({ what: 'replan', problem: before, ...few });
      expect(again).toMatchObject({ ok: true, value: { isChanged: false, changes: [] } });
      const why = await thread.ask({ what: 'explain', problem, plan: made.value });
      expect(why.operations.map(({ waits }) => waits[0]?.until)).toEqual([0, 60]);
      const found = await thread.ask({
        what: 'offers',
        problem,
        current: made.value,
        newOrder: order,
        ...few,
      });
      expect(found).toMatchObject({ ok: true, value: [{ start: 120, ready: 150 }] });
      await expect(
        thread.ask({ what: 'plan', problem: null as unknown as PlanProblem, ...few }),
      ).rejects.toThrow(/null/);
      const invalid = await thread.ask({ what: 'plan', problem: { ...problem, now: -1 }, ...few });
      expect(invalid).toMatchObject({ ok: false, fault: { code: 'plan-problem-invalid' } });
    } finally {
      await thread.onModuleDestroy();
    }
  });

  it('does not let those who ask wait for what is being improved', async () => {
    const thread = await builtThread();
    try {
      let isImproved = false;
      const improved = thread
        .ask({ what: 'replan', problem, wish: { improve: true }, seed: 1 })
        .then(() => (isImproved = true));
      const made = await thread.ask({ what: 'plan', problem, ...few });
      expect(made.ok).toBe(true);
      expect(isImproved).toBe(false);
      await improved;
    } finally {
      await thread.onModuleDestroy();
    }
  }, 20_000);

  it('turns away what comes when many wait, and not those who wait', async () => {
    const thread = await builtThread();
    try {
      const asked = Array.from({ length: 40 }, () =>
        thread.ask({ what: 'plan', problem, ...few }).then(
          () => 'ok',
          (error: unknown) => (error as { fault?: { code: string } }).fault?.code ?? 'broken',
        ),
      );
      const answers = await Promise.all(asked);
      expect([...new Set(answers)].sort()).toEqual(['ok', 'too-many-requests']);
      expect(answers.indexOf('too-many-requests')).toBeGreaterThan(10);
      expect(answers.lastIndexOf('ok')).toBeLessThan(answers.indexOf('too-many-requests'));
      expect((await thread.ask({ what: 'plan', problem, ...few })).ok).toBe(true);
    } finally {
      await thread.onModuleDestroy();
    }
  });
});
