import { render } from 'preact';
import { App } from './app';
import { WorkerEngine } from './engine/worker_engine';
import { DeviceStore } from './store/device';
import { FolderStore } from './store/folder';
import { Windows } from './store/windows';
import { languages, speak, type Language } from './words/words';
import './styles/base.css';

async function start(): Promise<void> {
  const asked = new URLSearchParams(location.search).get('lang');
  if (asked && asked in languages) speak(asked as Language);
  const store = (await FolderStore.isThere()) ? new FolderStore() : new DeviceStore();
  const place = document.getElementById('page');
  if (place) render(<App store={store} windows={new Windows()} engine={new WorkerEngine()} />, place);
}

void start();
