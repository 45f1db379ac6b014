import fc from 'fast-check';
import { seeded } from '#libs/chance';
import { BlockCrossing } from './block-crossing.js';
import { Crossing } from './crossing.js';
import { copyMember, newMember } from './member.js';
import type { Member } from './member.js';
import { packingFor } from './packing.js';
import { projectModel } from './project-model.js';
import type { ProjectModel } from './project-model.js';
import type { ProjectProblem } from './project-problem.js';
import { ScheduleMaker } from './schedule-maker.js';
import { Timeline } from './timeline.js';

const problems: fc.Arbitrary<ProjectProblem> = fc
  .record({ size: fc.integer({ min: 1, max: 25 }), kinds: fc.integer({ min: 0, max: 12 }) })
  .chain(({ size, kinds }) =>
    fc.record({
      nonrenewable: fc.constant([]),
      renewable: fc.array(fc.integer({ min: 5, max: 40 }), { minLength: kinds, maxLength: kinds }),
      activities: fc
        .array(
          fc.record({
            duration: fc.integer({ min: 0, max: 6 }),
            holds: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: kinds, maxLength: kinds }),
            steps: fc.array(fc.integer({ min: 1, max: 8 }), { maxLength: 3 }),
          }),
          { minLength: size, maxLength: size },
        )
        .map((all) =>
          all.map(({ duration, holds, steps }, at) => ({
            modes: [{ duration, holds, consumes: [] }],
            successors: steps.map((step) => at + step).filter((next) => next < size),
          })),
        ),
    }),
  );

/** A schedule of a list by chance. */
function memberOf(model: ProjectModel, crossing: Crossing): Member {
  const member = newMember(model.size);
  const maker = new ScheduleMaker(model);
  crossing.fresh(member, 1);
  member.makespan = maker.forward(member.list, member.modes, member.starts);
  member.makespan = maker.justify(member.list, member.modes, member.starts, member.makespan);
  return member;
}

/** Every activity once, none before one that it waits for. */
function expectList({ activities }: ProjectProblem, { list }: Member): void {
  const places = new Map([...list].map((at, place) => [at, place]));
  expect(places.size).toBe(activities.length);
  activities.forEach(({ successors }, at) => {
    for (const next of successors) expect(places.get(next)).toBeGreaterThan(places.get(at) ?? Infinity);
  });
}

describe('lists of activities', () => {
  it('made from others have every activity once, behind all that it waits for', () => {
    fc.assert(
      fc.property(problems, fc.integer(), (problem, seed) => {
        const model = projectModel(problem);
        const crossing = new Crossing(model, seeded(seed));
        const blocks = new BlockCrossing(model, seeded(seed));
        const [mother, father] = [memberOf(model, crossing), memberOf(model, crossing)];
        const child = newMember(model.size);
        const made = [
          () => {
            crossing.endsOf(mother, father, child);
          },
          () => {
            crossing.middleOf(mother, father, child);
          },
          () => {
            blocks.cross(mother, father, child);
          },
          () => {
            crossing.loosen(mother, child, 5);
          },
          () => {
            crossing.shuffle(child, 0.3);
          },
        ];
        expectList(problem, mother);
        for (const make of made) {
          make();
          expectList(problem, child);
        }
      }),
      { numRuns: 500 },
    );
  });

  it('are never done later once everything was pushed late and early again', () => {
    fc.assert(
      fc.property(problems, fc.integer(), (problem, seed) => {
        const model = projectModel(problem);
        const member = newMember(model.size);
        new Crossing(model, seeded(seed)).fresh(member, 1);
        const maker = new ScheduleMaker(model);
        const before = maker.forward(member.list, member.modes, member.starts);
        const list = newMember(model.size);
        maker.sortBy(member.list, member.starts);
        copyMember(member, list);
        const after = maker.justify(member.list, member.modes, member.starts, before);
        expect(after).toBeLessThanOrEqual(before);
        // The list that comes with it makes the same schedule again.
        expect(maker.forward(member.list, member.modes, list.starts)).toBe(after);
        expect(list.starts).toEqual(member.starts);
      }),
      { numRuns: 500 },
    );
  });
});

describe('the timeline of resources', () => {
  it('has room where looking unit by unit has it, however many resources there are', () => {
    const requests = fc.array(
      fc.record({
        from: fc.nat(20),
        duration: fc.nat(5),
        holds: fc.array(fc.nat(7), { minLength: 12, maxLength: 12 }),
      }),
      { maxLength: 12 },
    );
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 7, max: 300 }), { maxLength: 12 }), requests, (units, all) => {
        const packing = packingFor(units);
        const timeline = new Timeline(packing, units, 200);
        const held: number[][] = Array.from({ length: 200 }, () => units.map(() => 0));
        for (const { from, duration, holds } of all) {
          const fits = (start: number): boolean =>
            held
              .slice(start, start + duration)
              .every((used) => used.every((sum, kind) => sum + (holds[kind] ?? 0) <= (units[kind] ?? 0)));
          let start = from;
          while (!fits(start)) start++;
          expect(timeline.look(from, duration, packing.pack(holds), 0)).toBe(start);
          expect(timeline.place(from, duration, packing.pack(holds), 0)).toBe(start);
          for (const used of held.slice(start, start + duration))
            used.forEach((sum, kind) => (used[kind] = sum + (holds[kind] ?? 0)));
        }
      }),
      { numRuns: 500 },
    );
  });
});
