import type { Result } from '#libs/kernel';
import { compareWhatIfs, type Comparison } from '#libs/what-if';
import type { WhatIfQuestion } from '../data/what-if-question.js';

export function answer({ floor, year, alternatives, seeds }: WhatIfQuestion): Result<Comparison> {
  return compareWhatIfs(floor, year, alternatives, { seeds });
}
