import { render } from 'preact';
import { App } from './app';
import { WorkerEngine } from './engine/worker_engine';
import { chooseStore } from './store/choose';
import { holdWindow } from './store/drafts';
import { showSettings } from './store/settings';
import { Windows } from './store/windows';
import { languages, speak, spoken, type Language } from './words/words';
import './styles/base.css';
import './styles/drawing.css';
import './styles/job.css';
import './styles/panel.css';
import './styles/jobs.css';
import './styles/roof.css';

async function start(): Promise<void> {
  holdWindow();
  showSettings();
  const asked = new URLSearchParams(location.search).get('lang');
  if (asked && asked in languages) speak(asked as Language);
  document.documentElement.lang = spoken();
  const { store, inFolder } = await chooseStore();
  const place = document.getElementById('page');
  if (place) render(<App store={store} inFolder={inFolder} windows={new Windows()} engine={new WorkerEngine()} />, place);
}

void start();
