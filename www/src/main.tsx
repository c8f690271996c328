// Starts the page: the core first, then the work that was open, then the service worker.
import { render } from 'preact';
import { phrase } from './words/words.ts';
import { App } from './App.tsx';
import { benchDoor } from './bench.ts';
import { keepOffline } from './offline.ts';
import { begin } from './state/actions.ts';
import { fetchWords } from './words/language.ts';

const root = document.getElementById('page');

async function start(): Promise<void> {
  if (!root) return;
  try {
    const words = fetchWords();
    await begin();
    await words;
    await benchDoor();
    render(<App />, root);
    document.documentElement.dataset['ready'] = '';
  } catch (error) {
    console.error(error);
    render(<NoStart />, root);
    return;
  }
  keepOffline();
}

function NoStart() {
  return (
    <main class="no-start">
      <h1>{phrase('The planner did not start')}</h1>
      <p>
        {phrase("This browser could not load the planner's core. Update the browser or try another one, then reload the page. What was kept on this device is still there.")}
      </p>
    </main>
  );
}

void start();
