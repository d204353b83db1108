import type { Engine } from './engine/engine';
import type { Store } from './store/store';
import type { Windows } from './store/windows';
import { say } from './words/words';

export function App(_: { store: Store; windows: Windows; engine: Engine }) {
  return <p>{say('app.loading')}</p>;
}
