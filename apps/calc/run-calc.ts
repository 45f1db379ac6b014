import type { Result } from '#libs/kernel';
import type { Computation } from './computations/computation.js';
import { COMPUTATIONS } from './computations/registry.js';

/** What the process does: what it prints where, and the status it ends with (0 done, 2 called wrongly). */
export interface CalcOutcome {
  readonly exitCode: 0 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

/** Applies the computation `name` to each element of the JSON array in `text`. Bad elements answer in their own place. */
export function runCalc(name: string | undefined, text: string): CalcOutcome {
  const computation = findComputation(name);
  if (computation === undefined) return misuse(unknownName(name));
  const elements = parseArray(text);
  if (elements === null) {
    return misuse(
      `Standard input must be one JSON array whose elements are ${computation.shape.split(' -> ')[0]}`,
    );
  }
  const answers = elements.map((element) => answerOf(computation, element));
  return { exitCode: 0, stdout: `${JSON.stringify(answers)}\n`, stderr: '' };
}

/** The shape of an element and of its answer, for whoever wants to write one. */
export function tellShape(name: string | undefined): CalcOutcome {
  const computation = findComputation(name);
  return computation === undefined
    ? misuse(unknownName(name))
    : { exitCode: 0, stdout: `${computation.shape}\n`, stderr: '' };
}

export function findComputation(name: string | undefined): Computation | undefined {
  return COMPUTATIONS.find((computation) => computation.name === name);
}

function answerOf(computation: Computation, element: unknown): unknown {
  const result: Result<unknown> = computation.run(element);
  return result.ok ? result.value : { error: { code: result.fault.code, message: result.fault.detail } };
}

function parseArray(text: string): unknown[] | null {
  try {
    // Spreadsheets like to put a byte order mark in front.
    const value: unknown = JSON.parse(text.replace(/^\ufeff/, ''));
    return Array.isArray(value) ? (value as unknown[]) : null;
  } catch {
    return null;
  }
}

function misuse(line: string): CalcOutcome {
  return { exitCode: 2, stdout: '', stderr: `${line}\n` };
}

function unknownName(name: string | undefined): string {
  const asked = name === undefined ? 'Name a computation' : `There is no computation ${JSON.stringify(name)}`;
  return `${asked}. Choose one of: ${COMPUTATIONS.map((computation) => computation.name).join(', ')}.`;
}
