import '../styles/base.css';
import '../styles/parts.css';
import '../styles/page.css';
import './what-if.css';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { createRoot } from 'react-dom/client';
import { WhatIfPage } from './what-if-page.js';

const client = new QueryClient({ defaultOptions: { queries: { staleTime: 30_000 } } });
const root = document.getElementById('root');
if (root) {
  createRoot(root).render(
    <QueryClientProvider client={client}>
      <WhatIfPage />
    </QueryClientProvider>,
  );
}
