export * from './assert-never.js';
export * from './brands.js';
export * from './result.js';
