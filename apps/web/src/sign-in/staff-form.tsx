import { type SubmitEvent, useEffect, useRef, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import { send } from '../api/transport.js';
import type { About } from '../api/types.js';
import { signIn } from '../session/sign-in.js';
import { fieldFault } from '../ui/field.js';
import { Refusal } from '../ui/refusal.js';
import { TextField } from '../ui/text-field.js';
import { DemoPeople } from './demo-people.js';
import { SignInStub } from './sign-in-stub.js';
import { signInWords } from './sign-in-words.js';

interface StaffFormProps {
  readonly reason: string | undefined;
  readonly onSignedIn: () => void;
  /** Back to the people of this tablet, when it is one. */
  readonly onTablet?: () => void;
}
interface Credentials {
  readonly email: string;
  readonly password: string;
  readonly shop: string;
}

export function StaffForm({ reason, onSignedIn, onTablet }: StaffFormProps) {
  const [form, setForm] = useState<Credentials>({ email: '', password: '', shop: '' });
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const submit = useRef<HTMLButtonElement>(null);

  const onSubmit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    setBusy(true);
    setFault(null);
    const answer = await signIn(form.email.trim(), form.password, form.shop.trim() || undefined);
    setBusy(false);
    if (answer.ok) onSignedIn();
    else setFault(answer.fault);
  };
  const choose = ({ email, password }: { email: string; password: string }): void => {
    setForm({ ...form, email, password });
    setFault(null);
    submit.current?.focus();
  };
  const asksShop = fieldFault(fault?.fields, '/shop') !== undefined;
  return (
    <main className="sign-in-main">
      <section className="stub-sheet">
        <SignInStub />
        <form onSubmit={(event) => void onSubmit(event)} aria-busy={busy}>
          <h1>Sign in</h1>
          {reason !== undefined && !fault && <p className="notice">{reason}</p>}
          <Refusal {...(fault && !asksShop ? signInWords(fault, 'password') : {})} />
          <CredentialFields
            form={form}
            fault={fault}
            onChange={(change) => setForm({ ...form, ...change })}
          />
          <button type="submit" className="button main wide" disabled={busy} ref={submit}>
            {busy ? 'One moment' : 'Sign in'}
          </button>
          {onTablet && (
            <button type="button" className="plain wide" onClick={onTablet}>
              Choose your name instead
            </button>
          )}
        </form>
      </section>
      <Demo onChoose={choose} />
    </main>
  );
}

interface FieldsProps {
  readonly form: Credentials;
  readonly fault: ApiFault | null;
  readonly onChange: (change: Partial<Credentials>) => void;
}

/** The shop is asked for only when the server needs it: an address may belong to people of several shops. */
function CredentialFields({ form, fault, onChange }: FieldsProps) {
  const wrong = (pointer: string): string | undefined => fieldFault(fault?.fields, pointer);
  return (
    <>
      <TextField
        label="E-mail"
        type="email"
        autoComplete="username"
        value={form.email}
        fault={wrong('/email')}
        onText={(email) => onChange({ email })}
      />
      <TextField
        label="Password"
        type="password"
        autoComplete="current-password"
        value={form.password}
        fault={wrong('/password')}
        onText={(password) => onChange({ password })}
      />
      {(wrong('/shop') !== undefined || form.shop !== '') && (
        <TextField
          label="Shop"
          value={form.shop}
          fault={wrong('/shop')}
          onText={(shop) => onChange({ shop })}
        />
      )}
    </>
  );
}

function Demo({ onChoose }: { readonly onChoose: (account: { email: string; password: string }) => void }) {
  const [about, setAbout] = useState<About | null>(null);
  useEffect(() => {
    void send('get', '/api/v1/about').then((answer) => answer.ok && setAbout(answer.value));
  }, []);
  return about?.demo ? <DemoPeople accounts={about.demo.accounts} onChoose={onChoose} /> : null;
}
