export { WhatIfsModule } from './what-ifs.module.js';
