export { board } from './queries/board.query.js';
