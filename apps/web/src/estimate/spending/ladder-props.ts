import type { Choices } from '../../api/estimate-types.js';
import type { Taking } from './taking.js';

export interface LadderProps extends Taking {
  readonly choices: Choices;
  readonly budget: number | null;
}
