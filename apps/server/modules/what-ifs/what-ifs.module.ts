import { Module } from '@nestjs/common';
import { WhatIfJobs } from './answering/what-if-jobs.js';
import { WhatIfThread } from './answering/what-if-thread.js';
import { WhatIfsController } from './what-ifs.controller.js';

@Module({ controllers: [WhatIfsController], providers: [WhatIfThread, WhatIfJobs] })
export class WhatIfsModule {}
