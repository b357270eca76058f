// Mantine's own styles come first, so that ours can speak after them.
import '@mantine/core/styles.css';
import { QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { queryClient } from './api/queries.ts';
import { PreferencesProvider, usePreferences } from './shell/preferences.tsx';
import { router } from './shell/router.tsx';
import './shell/shell.css';
import './shell/print.css';
import { Theme } from './theme/Theme.tsx';

function App() {
  const { wall } = usePreferences();
  return (
    <Theme size={wall ? 'wall' : 'normal'}>
      <RouterProvider router={router} />
    </Theme>
  );
}

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id root');
createRoot(root).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <PreferencesProvider>
        <App />
      </PreferencesProvider>
    </QueryClientProvider>
  </StrictMode>,
);
