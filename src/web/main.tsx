import '@fontsource-variable/source-sans-3/wght.css';
import './styles/tokens.css';
import './styles/base.css';
import './styles/shell.css';
import './styles/parts.css';
import './styles/chart.css';
import './styles/forms.css';
import './styles/work.css';
import './styles/print.css';
import './styles/forced-colours.css';
import { QueryCache, QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { problemOf } from './api/problem.js';
import { App } from './app.js';
import { registerWorker } from './offline/register-worker.js';
import { SESSION_KEY } from './session/session.js';

const client: QueryClient = new QueryClient({
  queryCache: new QueryCache({
    // A session that has ended shows the sign-in form in the place of the page.
    onError: (error, asked) => {
      if (problemOf(error).status === 401 && asked.queryKey !== SESSION_KEY) client.setQueryData(SESSION_KEY, null);
    },
  }),
  defaultOptions: {
    queries: {
      staleTime: 60_000,
      refetchOnWindowFocus: false,
      // Without signal a page says so, or shows what the device kept; it does not wait.
      networkMode: 'always',
      refetchOnReconnect: true,
      // A refusal is final; only silence and faults of the service are worth asking again.
      retry: (count, error) => {
        const { status } = problemOf(error);
        return count < 2 && (status === 0 || status >= 500);
      },
    },
    mutations: { networkMode: 'always' },
  },
});

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element "root"');
createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={client}>
      <App />
    </QueryClientProvider>
  </StrictMode>,
);
registerWorker();
