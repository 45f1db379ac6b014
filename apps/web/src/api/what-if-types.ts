import type { BodyOf, Reply } from './types.js';

export type WhatIf = Reply<'/api/v1/what-ifs/{id}', 'get'>;
export type WhatIfSummary = Reply<'/api/v1/what-ifs', 'get'>['items'][number];
export type WhatIfAlternative = WhatIf['alternatives'][number];
export type WhatIfDifference = WhatIfAlternative['differences'][number];
export type WhatIfFigure = WhatIf['base'][number];
export type AskWhatIf = NonNullable<BodyOf<'/api/v1/what-ifs', 'post'>>;
export type WhatIfChange = AskWhatIf['alternatives'][number]['changes'][number];
export type Bays = Reply<'/api/v1/bays', 'get'>['items'];
export type Technicians = Reply<'/api/v1/technicians', 'get'>['items'];
export type SpecialTools = Reply<'/api/v1/special-tools', 'get'>['items'];
