// Lead: the pieces by junction in fitting order, the detail at each junction, and the why of every piece.
import { useState } from 'preact/hooks';
import { slopeName } from '../job/job_parts';
import { Findings } from '../parts/findings';
import { Frame, type View } from '../parts/frame';
import { DetailChoice } from '../parts/detail_choice';
import { PiecePanel, type Piece } from '../parts/piece_panel';
import { addressOf, go } from '../route';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say } from '../words/words';

interface Place {
  slope: string;
  junction: string;
}

// Junctions in the order of the job, each once.
function placesOf(session: Session): Place[] {
  const plan = session.readable?.plan;
  const out: Place[] = [];
  for (const one of [...(plan?.choices ?? []), ...(plan?.pieces ?? [])]) {
    const place = { slope: one.slope, junction: one.junction ?? '' };
    if (!out.some((other) => other.slope === place.slope && other.junction === place.junction)) out.push(place);
  }
  return out;
}

// As they are first fitted.
function inFittingOrder(session: Session, pieces: Piece[]): Piece[] {
  const order = (session.readable?.plan?.order_of_work ?? []).map((step) => step.mark ?? '');
  const first = (mark: string): number => {
    const at = order.indexOf(mark);
    return at < 0 ? order.length : at;
  };
  return [...pieces].sort((a, b) => first(a.mark) - first(b.mark));
}

export function Lead({ session, rest }: { session: Session; rest: string[] }) {
  const { job, readable } = session;
  const plan = readable?.plan;
  const words = useAnswer('words', () => session.engine.words());
  const kindOf = (kind: string): string => words?.get(`sheet.kind.${kind}`) ?? kind;
  const mark = rest[0] === 'piece' ? (rest[1] ?? '') : '';
  const here = rest[0] === 'at' ? { slope: rest[1] ?? '', junction: rest[2] ?? '' } : null;
  const piece = (plan?.pieces ?? []).find((one) => one.mark === mark && (!rest[2] || one.junction === rest[2]));
  const [view, setView] = useState('');
  const views: View[] = job.slopes.map((one, i) => ({ name: `roof/${slopeName(one, i)}`, label: slopeName(one, i), own: true }));
  for (const name of readable?.pictures.keys() ?? []) {
    const [kind, , ...junction] = name.split('/');
    if (kind === 'wall') views.push({ name, label: junction.join(', '), own: true });
  }
  const about = piece ?? here;
  const wanted = about ? `wall/${about.slope}/${about.junction}` : '';
  const own = about && (piece?.kind === 'step-flashing' || piece?.kind === 'cover-flashing' || piece?.kind === 'apron')
    ? views.find((one) => one.name === wanted || one.name.startsWith(`${wanted}/`))?.name
    : about && `roof/${about.slope}`;
  const places = placesOf(session);
  const nearest = here?.junction ?? places[0]?.junction ?? '';
  const rooms = (one: Place) => ({ at: 'job' as const, id: session.id, rung: 'lead' as const, rest: ['at', one.slope, one.junction] });

  return (
    <Frame
      session={session}
      rung="lead"
      title={say('rung.lead')}
      stage={{
        view: view || own || views[0]?.name || '',
        views,
        onView: setView,
        look: 'no-lengths',
        near: {
          key: piece ? `${piece.mark} ${piece.junction ?? ''}` : nearest,
          has: (tag) => {
            const [kind, of, , ...at] = tag.split('/');
            if (kind === 'mark') return piece !== undefined && of === piece.mark;
            return kind === 'piece' && (piece ? of === piece.mark && at.join('/') === piece.junction : at.join('/') === nearest);
          },
        },
        mark: (tag) => {
          const [kind, of, , ...at] = tag.split('/');
          if (kind === 'piece' && piece) return of === piece.mark && at.join('/') === piece.junction ? 'lit' : '';
          if (kind === 'piece' && here) return at.join('/') === here.junction ? 'lit' : '';
          if (kind === 'mark' && piece) return of === piece.mark ? 'lit' : '';
          return '';
        },
        onTags: (tags) => {
          const ring = tags.find((tag) => tag.startsWith('mark/'))?.split('/')[1];
          const shape = tags.find((tag) => tag.startsWith('piece/'))?.split('/');
          const found = ring ?? shape?.[1];
          if (found) go({ at: 'job', id: session.id, rung: 'lead', rest: ['piece', found, ...(ring || !shape ? [] : [shape.slice(3).join('/')])] });
          const masonry = tags.find((tag) => tag.startsWith('at/'))?.slice(3);
          const place = places.find((one) => one.junction === masonry);
          if (!found && place) go(rooms(place));
        },
      }}
    >
      {piece ? (
        <PiecePanel session={session} piece={piece} kind={kindOf(piece.kind)} />
      ) : (
        <>
          <h2>{say('rung.lead')}</h2>
          {(plan?.order_of_work ?? []).length > 0 && (
            <p><a class="button next" href={addressOf({ at: 'roof', id: session.id })}>{say('roof.start')}</a></p>
          )}
          {places.length === 0 && <p>{say('lead.none')}</p>}
          {places.map((one) => (
            <section key={`${one.slope}/${one.junction}`} class={`junction ${here?.junction === one.junction ? 'here' : ''}`}>
              <h3><a href={addressOf(rooms(one))} data-own>{one.junction}</a></h3>
              <DetailChoice session={session} slope={one.slope} junction={one.junction} open={here?.junction === one.junction} />
              <ul class="pieces">
                {inFittingOrder(session, (plan?.pieces ?? []).filter((p) => p.slope === one.slope && (p.junction ?? '') === one.junction)).map((p) => (
                  <li key={`${p.mark} ${p.face ?? ''}`}>
                    <a href={addressOf({ at: 'job', id: session.id, rung: 'lead', rest: ['piece', p.mark, p.junction ?? ''] })}>
                      <span class="ring" data-engine>{p.mark}</span>
                      <span><span data-engine>{kindOf(p.kind)}</span>{p.face && <small data-engine> {p.face}</small>}</span>
                      <span class="times">{say('lead.times', { count: p.count })}</span>
                      <span class="size">{Math.ceil(p.length)} × {Math.ceil(p.width)}</span>
                    </a>
                  </li>
                ))}
              </ul>
            </section>
          ))}
          <section>
            <h3>{say('findings.title')}</h3>
            <Findings session={session} findings={plan?.findings ?? []} />
          </section>
        </>
      )}
    </Frame>
  );
}
