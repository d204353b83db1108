// The jobs that are kept here, and how to begin one.
import { useEffect, useState } from 'preact/hooks';
import type { Engine } from '../engine/engine';
import { emptyJob } from '../job/changes';
import { download, fileName, jobOf, pickFile, textOf } from '../job/files';
import type { Job } from '../generated/job';
import { addressOf, go } from '../route';
import { dropDraft } from '../store/drafts';
import { newId, type Listed, type Store } from '../store/store';
import { Settings } from '../parts/settings';
import { Thumb } from '../parts/thumb';
import { say, type WordKey } from '../words/words';

const kCoverings: Job['slopes'][number]['covering']['kind'][] = ['plain-tile', 'slate', 'profiled-tile', 'flat-tile'];

// As much of a roof as shows how such units lie.
function patch(kind: (typeof kCoverings)[number]): string {
  const job = emptyJob('', 'roof', kind);
  return textOf({ ...job, slopes: job.slopes.map((one) => ({ ...one, rafter: 1000, width: 1500 })) });
}

export function Jobs({ store, inFolder, engine }: { store: Store; inFolder: boolean; engine: Engine }) {
  const [jobs, put] = useState<Listed[] | null>(null);
  const [trouble, setTrouble] = useState<WordKey | ''>('');
  const [thrown, setThrown] = useState<{ id: string; text: string } | null>(null);
  const look = () => store.list().then(
    (list) => put(list.sort((a, b) => b.changed - a.changed)),
    () => { put([]); setTrouble('jobs.away'); },
  );
  useEffect(() => void look(), []);

  const keep = async (text: string, open: boolean, id = newId()) => {
    const saved = await store.save(id, text, null);
    // The folder is away: its copy on this device has the job.
    if (saved.kind !== 'saved' && !(inFolder && saved.kind === 'away')) {
      setTrouble(saved.kind === 'full' ? 'save.full' : 'save.away');
      return;
    }
    if (open) go({ at: 'job', id, rung: 'measure', rest: [] });
    else await look();
  };
  const start = (kind: (typeof kCoverings)[number]) => void keep(textOf(emptyJob(say('jobs.new_title'), say('add.name.first_slope'), kind)), true);
  const bring = async () => {
    const text = await pickFile('application/json,.json');
    if (text === null) return;
    if (!jobOf(text)) setTrouble('jobs.not_a_job');
    else await keep(text, true);
  };
  const open = async (id: string, use: (text: string) => void) => {
    const held = await store.open(id);
    if (held) use(held.text);
  };
  const copy = (id: string) => open(id, (text) => {
    const job = jobOf(text);
    if (job) void keep(textOf({ ...job, title: say('jobs.copy_of', { title: job.title ?? '' }) }), false);
  });
  const discard = (id: string) => open(id, (text) => {
    void store.remove(id).then(() => {
      dropDraft(id);
      setThrown({ id, text });
      return look();
    });
  });

  return (
    <main class="jobs">
      <header class="masthead">
        <h1>{say('app.name')}</h1>
        <p>{say('app.what')}</p>
      </header>
      {trouble && <p role="alert" class="band">{say(trouble)}</p>}
      {thrown && (
        <p role="status" class="band">
          {say('jobs.thrown')}{' '}
          <button type="button" onClick={() => { void keep(thrown.text, false, thrown.id); setThrown(null); }}>{say('undo')}</button>
        </p>
      )}
      <section>
        <h2>{say('jobs.start')}</h2>
        <div class="starts">
          {kCoverings.map((kind) => (
            <button key={kind} type="button" onClick={() => start(kind)}>
              <Thumb engine={engine} name={kind} text={async () => patch(kind)} />
              {say(`choice.${kind}`)}
            </button>
          ))}
        </div>
        <div class="starts quiet">
          <a class="button" href={addressOf({ at: 'demo' })}>{say('jobs.demo')}</a>
          <button type="button" onClick={() => void bring()}>{say('jobs.import')}</button>
        </div>
      </section>
      <section>
        <h2>{say(inFolder ? 'jobs.in_folder' : 'jobs.on_device')}</h2>
        {jobs?.length === 0 && <p class="from">{say('jobs.none')}</p>}
        <ul class="job-list">
          {(jobs ?? []).map((one) => (
            <li key={one.id}>
              <a href={addressOf({ at: 'job', id: one.id, rung: 'measure', rest: [] })} data-own>
                <Thumb engine={engine} name={`${one.id} ${one.changed}`} text={async () => (await store.open(one.id))?.text ?? null} />
                {one.title || say('job.untitled')}
              </a>
              <div class="small">
                <button type="button" onClick={() => void copy(one.id)}>{say('jobs.copy')}<span class="unseen" data-own> {one.title}</span></button>
                <button type="button" onClick={() => void open(one.id, (text) => download(fileName(one.title, '.json'), 'application/json', text))}>
                  {say('jobs.export')}<span class="unseen" data-own> {one.title}</span>
                </button>
                <button type="button" onClick={() => void discard(one.id)}>{say('jobs.throw')}<span class="unseen" data-own> {one.title}</span></button>
              </div>
            </li>
          ))}
        </ul>
      </section>
      <Settings />
    </main>
  );
}
