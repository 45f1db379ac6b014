/** The server keeps at most 2048 pixels; less than that still shows what happened and gets through weak Wi-Fi. */
const LONGEST = 1600;

/**
 * A camera's picture, upright and small enough to send from a lift pit; as it is where this browser cannot draw it. It is
 * drawn anew, so the place and time that the camera wrote into it do not leave the device.
 */
export async function shrinkPhoto(file: Blob): Promise<Blob> {
  try {
    const picture = await createImageBitmap(file);
    const scale = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(picture.width * scale);
    canvas.height = Math.round(picture.height * scale);
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
    picture.close();
    const drawn = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.82));
    return drawn ?? file;
  } catch {
    return file;
  }
}

/** As an address that the page's own policy lets it show. */
export function dataAddress(photo: Blob): Promise<string> {
  return new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(typeof reader.result === 'string' ? reader.result : '');
    reader.onerror = () => failed(reader.error ?? new Error('the photo cannot be read'));
    reader.readAsDataURL(photo);
  });
}
