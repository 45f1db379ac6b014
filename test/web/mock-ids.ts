import { id } from './mock-data.js';

/** The repair order of the estimate's tests, with its revisions: the first was answered, the second is being written. */
export const ORDER = id(5, 2479);
export const SENT = id(6, 1);
export const DRAFT = id(6, 2);
