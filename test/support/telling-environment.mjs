import { TestEnvironment } from 'jest-environment-node';

/** What an open page has to say is asked for no longer than this: a page that hangs must not hold up its own report. */
const LIMIT_MS = 5_000;

/**
 * Node's environment, and with a failed browser test what its pages showed at that moment: `test/web/browser.ts` leaves
 * `tellOfPages` behind. Without it a wait that ran out says only that it did.
 */
export default class TellingEnvironment extends TestEnvironment {
  async handleTestEvent(event) {
    if (event.name !== 'test_fn_failure' && event.name !== 'hook_failure') return;
    const tell = this.global.tellOfPages;
    if (tell === undefined || !event.test) return;
    let timer;
    const late = new Promise((done) => {
      timer = setTimeout(done, LIMIT_MS, ['the pages did not answer']);
    });
    const told = await Promise.race([tell(), late]).catch((error) => [String(error)]);
    clearTimeout(timer);
    // The stack of this file would only hide the words.
    for (const words of told)
      event.test.errors.push([Object.assign(new Error(words), { stack: words }), undefined]);
  }
}
