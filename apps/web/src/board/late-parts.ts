/**
 * What a board by time needs only once somebody touches it, and the list: one chunk, fetched after the board has been
 * drawn, or at once where the list is what is drawn (see main.tsx).
 */
export { FloorHand } from './hand.js';
export { HandHelp } from './hand-help.js';
export { ListView } from './list-view.js';
export { nearest } from './nearest.js';
export { Waiting } from './waiting.js';
export { TicketDialog } from './ticket-dialog.js';
