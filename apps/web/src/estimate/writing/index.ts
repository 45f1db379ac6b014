export { WritingDialog } from './writing-dialog.js';
