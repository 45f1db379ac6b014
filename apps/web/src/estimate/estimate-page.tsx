import { mayPlan } from '../board/may-plan.js';
import { SignedInOnly } from '../session/gate.js';
import type { SignedIn } from '../session/session.js';
import { SheetPage } from '../ui/sheet-page.js';
import { EstimateDesk } from './estimate-desk.js';
import { EstimateHeader } from './estimate-header.js';
import { useLate } from './use-late.js';
import { useOrderId } from './use-order-id.js';

/** The estimate of a repair order, for the front desk and the manager; without one in the address, which to open. */
export function EstimatePage() {
  return (
    <SignedInOnly what="The estimate" blank={<BlankEstimate />}>
      {(session) => <SignedInEstimate session={session} />}
    </SignedInOnly>
  );
}

/** The paper before anything is printed on it. */
function BlankEstimate() {
  return (
    <div className="page" aria-busy="true">
      <header className="top" />
      <main aria-label="Reading the estimate" />
    </div>
  );
}

function SignedInEstimate({ session }: { readonly session: SignedIn }) {
  const [id, setId] = useOrderId();
  if (!mayPlan(session.staff)) {
    return (
      <SheetPage title="Estimates are written at the desk">
        <p>This page is for the front desk and the manager. What there is to do stands on the job board.</p>
        <a className="button main" href="/board">
          To the job board
        </a>
      </SheetPage>
    );
  }
  return (
    <div className="page">
      <EstimateHeader session={session} onFind={id === null ? undefined : () => setId(null)} />
      {id === null ? (
        <Find zone={session.shop.timeZone} onOpen={setId} />
      ) : (
        <EstimateDesk key={id} id={id} zone={session.shop.timeZone} />
      )}
    </div>
  );
}

const loadFind = () => import('./find-order.js');

function Find({ zone, onOpen }: { readonly zone: string; readonly onOpen: (id: string) => void }) {
  const find = useLate(loadFind, true, null);
  return find ? (
    <find.FindOrder zone={zone} onOpen={onOpen} />
  ) : (
    <main aria-label="Reading the repair orders" aria-busy="true" />
  );
}
