import '../styles/base.css';
import '../styles/parts.css';
import '../styles/ticket.css';
import '../styles/page.css';
import './board.css';
import './below.css';
import './list.css';
import './ticket-dialog.css';
import './reserved.css';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { createRoot } from 'react-dom/client';
import { BoardPage } from './board-page.js';
import { startsAsList } from './use-screen.js';

// Fetched beside the first answers of the server instead of after them.
if (startsAsList()) void import('./late-parts.js').catch(() => undefined);

const client = new QueryClient({ defaultOptions: { queries: { staleTime: 30_000 } } });
const root = document.getElementById('root');
if (root) {
  createRoot(root).render(
    <QueryClientProvider client={client}>
      <BoardPage />
    </QueryClientProvider>,
  );
}
