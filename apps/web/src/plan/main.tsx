import '../styles/base.css';
import '../styles/parts.css';
import '../styles/page.css';
import './plan.css';
import './changes.css';
import './work.css';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { createRoot } from 'react-dom/client';
import { PlanPage } from './plan-page.js';

const client = new QueryClient({ defaultOptions: { queries: { staleTime: 30_000 } } });
const root = document.getElementById('root');
if (root) {
  createRoot(root).render(
    <QueryClientProvider client={client}>
      <PlanPage />
    </QueryClientProvider>,
  );
}
