import type { Plan } from '../api/plan-types.js';
import { type Wall, said } from './words.js';

/** What keeps the plan from being better: technicians without shifts, lifts whose figures nobody entered. */
export function Notes({ notes, wall }: { readonly notes: Plan['notes']; readonly wall: Wall }) {
  if (notes.length === 0) return null;
  return (
    <section className="notes" aria-labelledby="notes-title">
      <h2 id="notes-title">What the plan cannot know</h2>
      <ul>
        {notes.map(({ about, id, words }, n) => (
          <li key={`${about} ${id ?? ''} ${n}`}>{said(words, wall)}</li>
        ))}
      </ul>
    </section>
  );
}
