// The rungs below the lead are fetched when they are first stepped on; until then their place says so.
import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { slopeName } from '../job/job_parts';
import { Frame } from '../parts/frame';
import type { Rung } from '../route';
import type { Session } from '../session';
import { say } from '../words/words';

type Props = { session: Session; rest: string[] };

function lazy(rung: Rung, load: () => Promise<ComponentType<Props>>) {
  let there: ComponentType<Props> | null = null;
  return function Lazy(props: Props) {
    const [Rung, put] = useState<ComponentType<Props> | null>(() => there);
    const [failed, setFailed] = useState(false);
    useEffect(() => {
      if (Rung) return;
      load().then(
        (loaded) => {
          there = loaded;
          put(() => loaded);
        },
        () => setFailed(true),
      );
    }, []);
    if (Rung) return <Rung {...props} />;
    const name = slopeName(props.session.job.slopes[0]!, 0);
    return (
      <Frame session={props.session} rung={rung} title={say(`rung.${rung}`)} stage={{ view: `roof/${name}`, views: [], onView: () => undefined, mark: () => '' }}>
        <p role="status">{say(failed ? 'engine.trouble' : 'app.loading')}</p>
      </Frame>
    );
  };
}

export const CutRung = lazy('cut', () => import('./all').then(({ Cut }) => Cut));
export const PapersRung = lazy('papers', () => import('./all').then(({ PapersRung: Papers }) => Papers));
export const WaterRung = lazy('water', () => import('./all').then(({ Water }) => Water));
