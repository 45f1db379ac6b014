/** Stops the database of the run and removes its folder. Prints nothing: the summary is the last line. */
export default async function globalTeardown() {
  await globalThis.testServer?.close();
}
