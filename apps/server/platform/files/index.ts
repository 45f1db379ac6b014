export { DiskPhotoStore } from './disk-photo-store.js';
export { PhotoIntake, type TakenPhoto } from './photo-intake.js';
export { PHOTO_SIZES, photoKey, PhotoStore, type OpenedPhoto, type PhotoSize } from './photo-store.js';
export { sendPhoto, type PhotoFile } from './send-photo.js';
export { withFile } from './with-file.js';
