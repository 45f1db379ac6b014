import { packingFor } from './packing.js';
import type { Packing } from './packing.js';
import type { ProjectProblem } from './project-problem.js';
import { usefulModes } from './useful-modes.js';

/** Neighbours of every activity, one after the other: those of activity a stand from `first[a]` to `first[a + 1]`. */
export interface Neighbours {
  readonly first: Int32Array;
  readonly at: Int32Array;
}

/** A project as flat tables. Modes are numbered through all activities; those of a stand from `firstMode[a]` on. */
export interface ProjectModel {
  readonly size: number;
  readonly successors: Neighbours;
  readonly predecessors: Neighbours;
  readonly firstMode: Int32Array;
  /** Of each mode: its index in its activity as it was given. */
  readonly given: Int32Array;
  readonly duration: Int32Array;
  readonly packing: Packing;
  /** Of each mode, `packing.words` words. */
  readonly wants: Int32Array;
  /** Of each mode: the sum over renewable resources of the share it holds. */
  readonly load: Float64Array;
  readonly renewable: readonly number[];
  readonly nonrenewable: Int32Array;
  /** Of each mode, one for each nonrenewable resource. */
  readonly consumes: Int32Array;
  /** The longest that a project without any overlap takes, and room to look ahead. */
  readonly horizon: number;
  /** The longest chain of shortest durations behind each activity, itself included. */
  readonly tail: Int32Array;
  /** The longest chain of shortest durations before each activity. */
  readonly head: Int32Array;
  /** Activities so that none comes before one that it waits for. */
  readonly topological: Int32Array;
}

function neighbours(lists: readonly (readonly number[])[]): Neighbours {
  const first = new Int32Array(lists.length + 1);
  lists.forEach((list, at) => (first[at + 1] = (first[at] ?? 0) + list.length));
  return { first, at: Int32Array.from(lists.flat()) };
}

function topologicalOrder(successors: readonly (readonly number[])[]): number[] {
  const waits = successors.map(() => 0);
  for (const next of successors.flat()) waits[next] = (waits[next] ?? 0) + 1;
  const order = [...waits.keys()].filter((at) => waits[at] === 0);
  for (let turn = 0; turn < order.length; turn++) {
    for (const next of successors[order[turn] ?? 0] ?? []) {
      waits[next] = (waits[next] ?? 0) - 1;
      if (waits[next] === 0) order.push(next);
    }
  }
  return order;
}

/**
 * @throws RangeError when activities wait for each other in a circle, an activity has no mode that the resources allow, or a
 *   successor does not exist.
 */
export function projectModel(problem: ProjectProblem): ProjectModel {
  const { activities, renewable, nonrenewable } = problem;
  const size = activities.length;
  const follows = activities.map(({ successors }) => [...new Set(successors)]);
  if (follows.flat().some((next) => !(next in activities)))
    throw new RangeError('a successor does not exist');
  const comesAfter: number[][] = activities.map(() => []);
  follows.forEach((list, at) => list.forEach((next) => comesAfter[next]?.push(at)));
  const topological = topologicalOrder(follows);
  if (topological.length < size) throw new RangeError('some activities wait for each other in a circle');
  const packing = packingFor(renewable);
  const modes = usefulModes(problem);
  const without = modes.findIndex((list) => list.length === 0);
  if (without >= 0) throw new RangeError(`activity ${without} has no mode that the resources allow`);
  const firstMode = new Int32Array(size + 1);
  modes.forEach((list, at) => (firstMode[at + 1] = (firstMode[at] ?? 0) + list.length));
  const flat = modes.flat();
  const shortest = modes.map((list) => Math.min(...list.map(({ duration }) => duration)));
  const longest = modes.map((list) => Math.max(...list.map(({ duration }) => duration)));
  const head = new Int32Array(size);
  const tail = new Int32Array(size);
  for (const at of topological) {
    for (const next of follows[at] ?? [])
      head[next] = Math.max(head[next] ?? 0, (head[at] ?? 0) + (shortest[at] ?? 0));
  }
  for (const at of [...topological].reverse()) {
    const behind = Math.max(0, ...(follows[at] ?? []).map((next) => tail[next] ?? 0));
    tail[at] = behind + (shortest[at] ?? 0);
  }
  return {
    size,
    successors: neighbours(follows),
    predecessors: neighbours(comesAfter),
    firstMode,
    given: Int32Array.from(flat, ({ index }) => index),
    duration: Int32Array.from(flat, ({ duration }) => duration),
    packing,
    wants: Int32Array.from(flat.flatMap(({ holds }) => [...packing.pack(holds)])),
    load: Float64Array.from(flat, ({ holds }) =>
      renewable.reduce((sum, units, resource) => sum + (holds[resource] ?? 0) / Math.max(1, units), 0),
    ),
    renewable,
    nonrenewable: Int32Array.from(nonrenewable),
    consumes: Int32Array.from(
      flat.flatMap(({ consumes }) => nonrenewable.map((_, resource) => consumes[resource] ?? 0)),
    ),
    horizon: longest.reduce((sum, duration) => sum + duration, 0) + Math.max(0, ...longest) + 1,
    head,
    tail,
    topological: Int32Array.from(topological),
  };
}
