// A job that another phone handed over as a code: kept here as a job of its own.
import { useEffect, useState } from 'preact/hooks';
import { unpacked } from '../job/carried';
import { jobOf, textOf } from '../job/files';
import { addressOf } from '../route';
import { newId, type Store } from '../store/store';
import { say, type WordKey } from '../words/words';

export function Take({ letters, store }: { letters: string; store: Store }) {
  const [trouble, put] = useState<WordKey | ''>('');
  useEffect(() => {
    void (async () => {
      const text = await unpacked(letters);
      const job = text === null ? null : jobOf(text);
      if (!job) {
        put('hand.wrong');
        return;
      }
      const id = newId();
      const saved = await store.save(id, textOf(job), null);
      if (saved.kind === 'saved') location.replace(addressOf({ at: 'job', id, rung: 'measure', rest: [] }));
      else put(saved.kind === 'full' ? 'save.full' : 'save.away');
    })();
  }, [letters]);
  return (
    <main class="jobs">
      <p role={trouble ? 'alert' : 'status'} class="band">{say(trouble || 'app.loading')}</p>
      {trouble && <a class="button" href="#/">{say('jobs.all')}</a>}
    </main>
  );
}
