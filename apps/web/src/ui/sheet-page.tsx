import type { ReactNode } from 'react';

/** A page that has only one thing to say and one way on, printed on a single sheet. */
export function SheetPage({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <main className="sheet-page">
      <section className="sheet">
        <h1>{title}</h1>
        {children}
      </section>
    </main>
  );
}
