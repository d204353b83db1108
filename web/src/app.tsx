// The page: which screen, and the one job that is open.
import { useEffect, useState } from 'preact/hooks';
import demo from '../../data/demo/hollin-barn.json';
import type { Engine } from './engine/engine';
import { textOf } from './job/files';
import type { Job } from './generated/job';
import { keepOffline } from './offline';
import { Jobs } from './screens/jobs';
import { LayOut } from './screens/layout';
import { Lead } from './screens/lead';
import { Measure } from './screens/measure';
import { OnTheRoof } from './screens/roof';
import { CutRung, PapersRung, WaterRung } from './rungs/lazy';
import { Take } from './screens/take';
import { Session } from './session';
import type { Store } from './store/store';
import type { Windows } from './store/windows';
import { useRoute, useSession } from './use';
import { say } from './words/words';

const kDemo = 'demo';

interface Tools {
  store: Store;
  inFolder: boolean;
  windows: Windows;
  engine: Engine;
}

function Opened({ session }: { session: Session }) {
  useSession(session);
  const route = useRoute();
  if (route.at === 'roof') return <OnTheRoof session={session} />;
  if (route.at !== 'job') return null;
  switch (route.rung) {
    case 'measure':
      return <Measure session={session} at={route.rest[0] ?? ''} />;
    case 'layout':
      return <LayOut session={session} rest={route.rest} />;
    case 'lead':
      return <Lead session={session} rest={route.rest} />;
    case 'papers':
      return <PapersRung session={session} rest={route.rest} />;
    case 'cut':
      return <CutRung session={session} rest={route.rest} />;
    case 'water':
      return <WaterRung session={session} rest={route.rest} />;
  }
}

function OpenJob({ id, tools }: { id: string; tools: Tools }) {
  const [session, put] = useState<Session | 'none' | null>(null);
  useEffect(() => {
    let open: Session | null = null;
    let wanted = true;
    void tools.store.open(id).then(
      async (held) => {
        const session = held && wanted ? await Session.start(held, tools.store, tools.windows, tools.engine) : null;
        if (!wanted) {
          session?.end();
          return;
        }
        open = session;
        put(open ?? 'none');
      },
      () => put('none'),
    );
    return () => {
      wanted = false;
      open?.end();
    };
  }, [id]);
  if (session === 'none') {
    return (
      <main class="jobs">
        <p role="alert" class="band">{say('job.missing')}</p>
        <a class="button" href="#/">{say('jobs.all')}</a>
      </main>
    );
  }
  return session ? <Opened session={session} /> : <main class="jobs"><p>{say('app.loading')}</p></main>;
}

// The demo is a job like any other: kept, changed, thrown away.
function Demo({ tools }: { tools: Tools }) {
  useEffect(() => {
    void (async () => {
      if (!(await tools.store.open(kDemo).catch(() => null))) await tools.store.save(kDemo, textOf(demo as unknown as Job), null);
      location.replace(`#/job/${kDemo}/measure`);
    })();
  }, []);
  return <main class="jobs"><p>{say('app.loading')}</p></main>;
}

export function App(tools: Tools) {
  const route = useRoute();
  const [take, offer] = useState<(() => void) | null>(null);
  useEffect(() => keepOffline((found) => offer(() => found)), []);
  return (
    <>
      {take && (
        <p class="band newer" role="status">
          {say('newer.there')} <button type="button" onClick={take}>{say('newer.take')}</button>
        </p>
      )}
      {route.at === 'jobs' && <Jobs store={tools.store} inFolder={tools.inFolder} engine={tools.engine} />}
      {route.at === 'demo' && <Demo tools={tools} />}
      {route.at === 'take' && <Take letters={route.letters} store={tools.store} />}
      {(route.at === 'job' || route.at === 'roof') && <OpenJob key={route.id} id={route.id} tools={tools} />}
    </>
  );
}

