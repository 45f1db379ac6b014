/** Injection tokens for things that are not classes. */
export const CONFIG = Symbol('config');
export const LOGGER = Symbol('logger');
