// This job beside another one, or beside itself as it was: every thing that differs, and where on the drawing.
import { useEffect, useState } from 'preact/hooks';
import type { Compared, Difference, Fault } from '../engine/engine';
import { download } from '../job/files';
import { slopeName } from '../job/job_parts';
import { Frame } from '../parts/frame';
import { Judgement } from '../parts/judgement';
import type { Piece } from '../parts/piece_panel';
import { addressOf } from '../route';
import type { Session } from '../session';
import type { Listed } from '../store/store';
import { useAnswer } from '../use';
import { say, sayMany } from '../words/words';
import { useYard } from './use_board';
import { keepVersion, versionOf } from './versions';

const kKinds: Difference['what'][] = ['piece', 'set-out', 'course', 'quantity', 'price', 'finding', 'figure'];

// The engine's name of a piece's place.
const placeOf = (piece: Piece): string => [piece.slope, piece.junction, piece.face, piece.kind].filter(Boolean).join(' / ');
const isAt = (difference: Difference, piece: Piece): boolean => {
  const place = placeOf(piece);
  return difference.where === place || difference.where.startsWith(`${place} `);
};
const ofPieces = (all: Difference[]): Difference[] => all.filter((one) => one.what === 'piece' || one.what === 'figure');

type Other = { title: string; text: string };
type State = { at: 'none' } | { at: 'comparing'; other: Other } | { at: 'done'; other: Other; text: string; compared: Compared } | { at: 'failed' };

export function CompareScreen({ session, rest }: { session: Session; rest: string[] }) {
  const book = useYard(session);
  const [jobs, setJobs] = useState<Listed[]>([]);
  const [kept, again] = useState(0);
  const [state, put] = useState<State>({ at: 'none' });
  const [lit, setLit] = useState(rest[0] ?? '');
  const [view, setView] = useState('');
  const version = useAnswer(`${session.id}|${kept}`, () => versionOf(session.id));
  useEffect(() => void session.store.list().then(setJobs, () => undefined), []);

  const compare = async (other: Other) => {
    put({ at: 'comparing', other });
    try {
      const compared = await session.engine.compare(other.text, session.readableText, book.faults.length === 0 ? book.text : '');
      put(compared ? { at: 'done', other, text: session.readableText, compared } : { at: 'failed' });
    } catch {
      put({ at: 'failed' });
    }
  };
  const withJob = async (one: Listed) => {
    const held = await session.store.open(one.id).catch(() => null);
    if (held) await compare({ title: one.title || say('job.untitled'), text: held.text });
  };
  const keep = async () => {
    await keepVersion(session.id, session.text);
    again((n) => n + 1);
  };

  const differences = state.at === 'done' ? state.compared.differences : [];
  const plan = session.readable?.plan;
  const changed = ofPieces(differences);
  const isChanged = (mark: string, junction: string) =>
    (plan?.pieces ?? []).some((piece) => piece.mark === mark && (piece.junction ?? '') === junction && changed.some((one) => isAt(one, piece)));
  const views = [
    ...session.job.slopes.map((one, i) => ({ name: `roof/${slopeName(one, i)}`, label: slopeName(one, i), own: true })),
    ...[...(session.readable?.pictures.keys() ?? [])].filter((name) => name.startsWith('wall/')).map((name) => ({ name, label: name.split('/').slice(2).join(', '), own: true })),
  ];
  return (
    <Frame
      session={session}
      rung="papers"
      title={say('compare.title')}
      stage={{
        view: view || views[0]?.name || '',
        views,
        onView: setView,
        look: 'no-lengths',
        mark: (tag) => {
          const [kind, mark = '', , ...at] = tag.split('/');
          if (kind !== 'piece') return '';
          const junction = at.join('/');
          if (lit) return mark === lit ? 'lit' : '';
          return isChanged(mark, junction) ? 'lit' : '';
        },
        onTags: (tags) => {
          const mark = tags.map((tag) => /^(?:piece|mark)\/([^/]+)/.exec(tag)?.[1]).find(Boolean);
          setLit(mark && mark !== lit ? mark : '');
        },
      }}
    >
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'papers', rest: [] })}>{say('papers.all')}</a></p>
      <h2>{say('compare.title')}</h2>
      <p class="from">{say('compare.about')}</p>
      <div class="options tall">
        <button type="button" disabled={session.opened === session.text} onClick={() => void compare({ title: say('compare.opened'), text: session.opened })}>
          {say('compare.opened')}
        </button>
        {version && (
          <button type="button" onClick={() => void compare({ title: say('compare.kept'), text: version.text })}>
            {say('compare.with_kept', { when: new Date(version.kept).toLocaleString([], { dateStyle: 'short', timeStyle: 'short' }) })}
          </button>
        )}
        {jobs.filter((one) => one.id !== session.id).map((one) => (
          <button key={one.id} type="button" onClick={() => void withJob(one)}><span data-own>{one.title || say('job.untitled')}</span></button>
        ))}
      </div>
      <p><button type="button" onClick={() => void keep()}>{say('compare.keep')}</button></p>
      <div aria-live="polite">
        {state.at === 'comparing' && <p>{say('compare.comparing')}</p>}
        {state.at === 'failed' && <p>{say('engine.trouble')}</p>}
        {state.at === 'done' && state.compared.faults.length > 0 && <CannotCompare faults={state.compared.faults} />}
        {state.at === 'done' && state.compared.faults.length === 0 && (
          <p class="lead-in">
            {differences.length === 0 ? say('compare.same', { other: state.other.title }) : sayMany('compare.count', differences.length, { other: state.other.title })}
          </p>
        )}
      </div>
      {state.at === 'done' && state.text !== session.readableText && <p class="wrong-here">{say('compare.old')}</p>}
      {lit && (
        <p><span class="ring" data-engine>{lit}</span> <button type="button" onClick={() => setLit('')}>{say('compare.show_all')}</button></p>
      )}
      {state.at === 'done' && kKinds.map((what) => {
        const of = differences.filter((one) => one.what === what && (!lit || (plan?.pieces ?? []).some((piece) => piece.mark === lit && isAt(one, piece))));
        return of.length === 0 ? null : <Kind key={what} what={what} of={of} before={state.other.title} onPiece={(one) => {
          const piece = (plan?.pieces ?? []).find((other) => isAt(one, other));
          if (piece) setLit(piece.mark);
        }} />;
      })}
      {state.at === 'done' && state.compared.papers.map((file) => (
        <p key={file.name}><button type="button" class="wide" onClick={() => download(file.name, file.media, file.bytes)} data-engine>{file.name}</button></p>
      ))}
    </Frame>
  );
}

function CannotCompare({ faults }: { faults: Fault[] }) {
  return (
    <div class="wrong-here">
      <p><Judgement level="wrong" /> {say('compare.cannot')}</p>
      <ul data-engine>{faults.map((fault, i) => <li key={i}><b>{fault.path}</b> {[fault.accepted, fault.mend].filter(Boolean).join('; ')}</li>)}</ul>
    </div>
  );
}

function Kind({ what, of, before, onPiece }: { what: Difference['what']; of: Difference[]; before: string; onPiece: (one: Difference) => void }) {
  const places = [...new Set(of.map((one) => one.where))];
  const ofPiece = what === 'piece' || what === 'figure';
  return (
    <details class="all" open={what !== 'figure'}>
      <summary>{sayMany(`compare.${what}` as 'compare.piece', of.length)}</summary>
      <table class="differences">
        <thead class="unseen"><tr><th>{say('compare.thing')}</th><th data-own>{before}</th><th>{say('compare.now')}</th></tr></thead>
        {places.map((place) => (
          <tbody key={place}>
            <tr>
              <th colSpan={3} scope="rowgroup">
                {ofPiece
                  ? <button type="button" class="plain" onClick={() => onPiece(of.find((one) => one.where === place)!)} data-engine>{place}</button>
                  : <span data-engine>{place}</span>}
              </th>
            </tr>
            {of.filter((one) => one.where === place).map((one) => (
              <tr key={one.name}>
                <th scope="row" data-engine>{one.name}</th>
                <td class="was">{one.a === '' ? say('compare.absent') : <span data-engine>{one.a}</span>}</td>
                <td class="now">{one.b === '' ? say('compare.absent') : <span data-engine>{one.b}</span>}</td>
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </details>
  );
}
