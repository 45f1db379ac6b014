export { migrateQueue } from './migrate-queue.js';
export { QueueRunner, type DueRun } from './queue-runner.js';
export { QueueTasks, type QueuedJob, type QueueHandler } from './queue-tasks.js';
export { Reactions, type Reaction } from './reactions.js';
export { QUEUE_TIMING, type QueueTiming } from './queue-timing.js';
