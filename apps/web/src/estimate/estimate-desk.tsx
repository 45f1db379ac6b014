import { useCallback, useState } from 'react';
import type { Estimate, Order } from '../api/estimate-types.js';
import { SheetPage } from '../ui/sheet-page.js';
import { StatusLine } from '../ui/status-line.js';
import { DeskKeys } from './desk-keys.js';
import { OrderHead } from './order-head.js';
import { RevisionDesk } from './revision-desk.js';
import { RevisionTabs } from './revision-tabs.js';
import { type EstimateInHand, useEstimate } from './use-estimate.js';

interface DeskProps {
  readonly id: string;
  readonly zone: string;
}

export function EstimateDesk({ id, zone }: DeskProps) {
  const inHand = useEstimate(id);
  const { order, estimate, fault } = inHand;
  if (order && estimate) return <OpenOrder {...{ order, estimate, inHand, zone }} />;
  if (!fault) return <main aria-label="Reading the estimate" aria-busy="true" />;
  return (
    <SheetPage
      title={fault.code === 'line-lost' ? 'The server does not answer' : 'This estimate cannot be shown'}
    >
      <p>{fault.detail}</p>
      <button type="button" className="button main" onClick={() => void inHand.read()}>
        Try again
      </button>
    </SheetPage>
  );
}

/** What this page says last, and whether it is a refusal. */
export interface Said {
  readonly words: string;
  readonly refused: boolean;
}

interface OpenOrderProps {
  readonly order: Order;
  readonly estimate: Estimate;
  readonly inHand: EstimateInHand;
  readonly zone: string;
}

function OpenOrder({ order, estimate, inHand, zone }: OpenOrderProps) {
  const [revisionId, setRevisionId] = useState<string | null>(null);
  const [said, setSaid] = useState<Said>({ words: '', refused: false });
  const say = useCallback((words: string, refused = false) => setSaid({ words, refused }), []);
  // Unless one was picked: the draft, which is what there is to do; else the one that was sent last.
  const revision =
    estimate.revisions.find((one) => one.id === revisionId) ??
    estimate.revisions.find((one) => one.state === 'draft') ??
    estimate.revisions.at(-1);
  return (
    <>
      <main className="estimate">
        <OrderHead order={order} estimate={estimate} zone={zone} />
        {estimate.revisions.length > 1 && revision && (
          <RevisionTabs revisions={estimate.revisions} shown={revision} onShow={setRevisionId} />
        )}
        <RevisionDesk {...{ order, estimate, revision, zone, say }} read={inHand.read} />
        <p className="notice law">{estimate.notice}</p>
      </main>
      <StatusLine
        lost={inHand.line === 'lost'}
        lostWords="What you see was read before. What you type stays here."
        words={said.words}
        refused={said.refused}
      >
        <DeskKeys />
      </StatusLine>
    </>
  );
}
