import type { Say } from './plan-desk.js';
import { LookAgain } from './look-again.js';
import { SettingsForm } from './settings-form.js';
import { useSettings } from './use-settings.js';
import type { Wall } from './words.js';

/** The manager's part: a longer look for a better plan, and how the shop wants its plan made. */
export function HowItIsMade({ wall, say }: { readonly wall: Wall; readonly say: Say }) {
  const inHand = useSettings();
  const { settings, fault } = inHand;
  return (
    <section className="how-made" aria-labelledby="how-title">
      <h2 id="how-title">How the plan is made</h2>
      <LookAgain wall={wall} />
      {settings && <SettingsForm inHand={inHand} settings={settings} say={say} />}
      {!settings && fault && <p className="notice">{fault.detail}</p>}
    </section>
  );
}
