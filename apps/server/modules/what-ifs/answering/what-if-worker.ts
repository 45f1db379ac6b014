import { parentPort, workerData } from 'node:worker_threads';
import type { WhatIfQuestion } from '../data/what-if-question.js';
import { answer } from './answer.js';

/** The thread in which one question is answered. */
parentPort?.postMessage(answer(workerData as WhatIfQuestion));
