import type { About } from '../api/types.js';
import { roleWords } from '../ui/role-words.js';

type Account = NonNullable<About['demo']>['accounts'][number];

/** The invented people of the demo shop; a press fills in the form. */
export function DemoPeople({
  accounts,
  onChoose,
}: {
  readonly accounts: readonly Account[];
  readonly onChoose: (account: Account) => void;
}) {
  return (
    <section className="demo" aria-labelledby="demo-heading">
      <h2 id="demo-heading">
        Demo people
        <small>Invented. Choose one to fill in the form.</small>
      </h2>
      <ul>
        {accounts.map((account) => (
          <li key={account.email}>
            <button type="button" onClick={() => onChoose(account)}>
              <b>{account.name}</b>
              <span>{roleWords([account.role])}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
