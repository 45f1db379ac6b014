import { FIGURES, type Comparison, type Figures } from '#libs/what-if';
import type {
  WhatIfFigureResponse,
  WhatIfResponse,
  WhatIfState,
  WhatIfSummaryResponse,
} from '../dto/what-if.response.js';
import type { WhatIfQuestion } from './what-if-question.js';

export interface StoredWhatIf {
  readonly id: string;
  readonly askedAt: Date;
  readonly startedAt: Date | null;
  readonly endedAt: Date | null;
  readonly failedReason: string | null;
  readonly isAnswered: boolean;
  readonly askedById: string;
  readonly askedByName: string;
  readonly asked: string[];
}

export interface WholeWhatIf extends StoredWhatIf {
  readonly question: Pick<WhatIfQuestion, 'basis' | 'seeds'> & { readonly weeks: number };
  readonly answer: Comparison | null;
}

const hundredths = (value: number): number => Math.round(value * 100);

const figuresOf = (figures: Figures): WhatIfFigureResponse[] =>
  FIGURES.map((figure) => ({ figure, hundredths: hundredths(figures[figure]) }));

function stateOf({ isAnswered, failedReason, startedAt }: StoredWhatIf): WhatIfState {
  if (isAnswered) return 'answered';
  if (failedReason !== null) return 'failed';
  return startedAt === null ? 'waiting' : 'running';
}

export function whatIfSummary(row: StoredWhatIf): WhatIfSummaryResponse {
  return {
    id: row.id,
    state: stateOf(row),
    askedBy: { id: row.askedById, displayName: row.askedByName },
    askedAt: row.askedAt.toISOString(),
    endedAt: row.endedAt?.toISOString() ?? null,
    asked: row.asked,
  };
}

export function whatIfResponse(row: WholeWhatIf): WhatIfResponse {
  const { question, answer, asked } = row;
  const { basis } = question;
  return {
    ...whatIfSummary(row),
    failedReason: row.failedReason,
    weeks: question.weeks,
    years: question.seeds.length,
    basis: { ...basis, assumed: [...basis.assumed] },
    base: answer === null ? [] : figuresOf(answer.base),
    alternatives: asked.map((name, k) => {
      const found = answer?.alternatives[k];
      if (found === undefined) return { name, figures: [], differences: [], advice: [] };
      return {
        name,
        figures: figuresOf(found.figures),
        differences: FIGURES.map((figure) => {
          const { mean, bounds } = found.differences[figure];
          return {
            ...{ figure, hundredths: hundredths(mean) },
            low: bounds === null ? null : hundredths(bounds.lo),
            high: bounds === null ? null : hundredths(bounds.hi),
          };
        }),
        advice: found.advice.map(({ code, words }) => ({ code, words })),
      };
    }),
  };
}
