export * from './clean.js';
export * from './compensate.js';
export * from './inspect.js';
export * from './order.js';
export * from './perforate.js';
export * from './plan.js';
export * from './simulate.js';
export * from './tip-error.js';
