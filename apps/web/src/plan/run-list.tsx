import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { call } from '../api/client.js';
import type { PlanRun, RunSummary } from '../api/plan-types.js';
import { type Refused, valueOf } from '../estimate/answers.js';
import { ChangeList, PromiseChanges } from './change-list.js';
import { PLAN, readRun, runOf } from './read-plan.js';
import { type Wall, capital, forWhat, moment, outcomeWords, said } from './words.js';

const SHOWN = 12;

/** The last looks at the plan: when, what for, what came of it; each unfolds what was different in it. */
export function RunList({ wall }: { readonly wall: Wall }) {
  const { data, error } = useQuery({
    queryKey: [PLAN, 'runs'],
    queryFn: ({ signal }) => valueOf(call('get', '/api/v1/plan/runs', { query: { limit: SHOWN }, signal })),
    retry: false,
  });
  return (
    <section className="runs" aria-labelledby="runs-title">
      <h2 id="runs-title">What happened lately</h2>
      {error && !data && <p className="notice">It could not be read just now.</p>}
      {data?.items.length === 0 && <p className="notice">Nothing has made anybody look at the plan yet.</p>}
      <ol>
        {data?.items.map((run) => (
          <li key={run.id}>
            <RunItem run={run} wall={wall} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function RunItem({ run, wall }: { readonly run: RunSummary; readonly wall: Wall }) {
  const [isOpen, setIsOpen] = useState(false);
  const isEmpty = run.outcome === null || run.changeCount === 0;
  const at = capital(moment(run.endedAt ?? run.askedAt, wall));
  const body = (
    <>
      <span className="run-at">{at}</span> <b>{outcomeWords(run)}.</b>
      <span className="run-for">{forWhat(run, wall)}</span>
    </>
  );
  if (isEmpty)
    return (
      <div className="run">
        {body}
        {run.detail !== null && <span className="run-for">{said(run.detail, wall)}</span>}
      </div>
    );
  return (
    <details className="run" onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>{body}</summary>
      {run.detail !== null && <p className="run-for">{said(run.detail, wall)}</p>}
      {isOpen && <Diff id={run.id} wall={wall} />}
    </details>
  );
}

function Diff({ id, wall }: { readonly id: string; readonly wall: Wall }) {
  const { data, error } = useQuery<PlanRun, Refused>({
    queryKey: runOf(id),
    queryFn: ({ signal }) => readRun(id, signal),
    retry: false,
  });
  if (error && !data) return <p className="notice">{error.detail}</p>;
  if (!data) return <p aria-busy="true">Reading …</p>;
  return (
    <div className="run-diff">
      <PromiseChanges promises={data.promises} wall={wall} />
      <ChangeList changes={data.changes} wall={wall} />
    </div>
  );
}
