// The leak helper: what is seen on a roof that stands already, when it leaks, and what that makes of it.
import { useState } from 'preact/hooks';
import type { Job } from '../generated/job';
import { tellFault } from '../job/faults';
import { junctionName, slopeName } from '../job/job_parts';
import { valueAt } from '../job/path';
import { Findings } from '../parts/findings';
import { Frame } from '../parts/frame';
import { Judgement } from '../parts/judgement';
import { addressOf } from '../route';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say } from '../words/words';
import { asKind, asksBy, isOfCourse, kDetails, kFound, kRain, kWinds, type Existing, type Found, type FoundKind, type Leak, type Suspect } from './existing';

interface Place {
  slope: string;
  junction: string;
}

const placesOf = (job: Job): Place[] =>
  job.slopes.flatMap((slope, i) => (slope.junctions ?? []).map((junction, j) => ({ slope: slopeName(slope, i), junction: junctionName(junction, j) })));
const keyOf = (place: Place): string => `${place.slope} / ${place.junction}`;

export const existingOf = (session: Session): Existing | undefined =>
  (session.readable?.plan as { existing?: Existing } | null | undefined)?.existing;

interface ChoiceProps {
  id: string;
  label: string;
  value: string;
  options: { value: string; label: string; own?: boolean }[];
  onValue: (value: string) => void;
}

function Choice({ id, label, value, options, onValue }: ChoiceProps) {
  return (
    <div class="yard-field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onValue(event.currentTarget.value)}>
        {options.map((one) => <option key={one.value} value={one.value} {...(one.own ? { 'data-own': '' } : {})}>{one.label}</option>)}
      </select>
    </div>
  );
}

interface NumberProps {
  session: Session;
  path: string;
  label: string;
  unit?: string;
  needed?: boolean;
}

function NumberField({ session, path, label, unit, needed = false }: NumberProps) {
  const [typed, setTyped] = useState<string | null>(null);
  const value = valueAt(session.job, path);
  const shown = typed ?? (value === undefined ? '' : String(value));
  const fault = session.seen?.faults.find((one) => one.path === `$.${path}`);
  const told = fault && tellFault(fault, shown);
  const id = `leak-${path.replace(/\W+/g, '-')}`;
  const put = (text: string) => {
    setTyped(text);
    const trimmed = text.trim();
    const next = trimmed === '' ? (needed ? '' : undefined) : /^-?\d+([.,]\d+)?$/.test(trimmed) ? Number(trimmed.replace(',', '.')) : trimmed;
    session.set(path, next);
  };
  return (
    <div class={`yard-field ${fault ? 'is-wrong' : ''}`}>
      <label for={id}>{label}</label>
      <div class="with-unit">
        <input id={id} type="text" inputMode="decimal" autocomplete="off" value={shown} aria-invalid={fault !== undefined} aria-describedby={`${id}-wrong`}
          onInput={(event) => put(event.currentTarget.value)} onBlur={() => setTyped(null)} />
        {unit && <span class="unit">{unit}</span>}
      </div>
      <div id={`${id}-wrong`} aria-live="polite">
        {told && <p class="wrong-here"><Judgement level="wrong" /> {told.text} <span data-engine>{told.own}</span></p>}
      </div>
    </div>
  );
}

function FoundItem({ session, at, found, kindOf }: { session: Session; at: number; found: Found; kindOf: (kind: string) => string }) {
  const path = `as_built[${at}]`;
  const places = placesOf(session.job);
  const here = places.find((one) => one.junction === found.junction && (found.slope === undefined || one.slope === found.slope));
  const pieces = [...new Set((session.readable?.plan?.pieces ?? []).filter((one) => one.junction === found.junction).map((one) => one.kind))];
  if (found.piece && !pieces.includes(found.piece)) pieces.push(found.piece);
  const put = (next: Found) => session.set(path, next, '');
  return (
    <li>
      <div class="fields">
        <Choice id={`${path}-at`} label={say('leaks.junction')} value={here ? keyOf(here) : ''} options={places.map((one) => ({ value: keyOf(one), label: keyOf(one), own: true }))}
          onValue={(key) => {
            const place = places.find((one) => keyOf(one) === key);
            if (place) put({ ...found, ...place });
          }} />
        <Choice id={`${path}-kind`} label={say('leaks.how')} value={found.kind} options={kFound.map((kind) => ({ value: kind, label: say(`leaks.found.${kind}`) }))}
          onValue={(kind) => put(asKind(found, kind as FoundKind, pieces[0] ?? 'soaker'))} />
        {found.kind === 'detail' ? (
          <Choice id={`${path}-detail`} label={say('leaks.detail')} value={found.detail ?? ''} options={kDetails.map((one) => ({ value: one, label: say(`detail.${one}`) }))}
            onValue={(detail) => put({ ...found, detail })} />
        ) : (
          <Choice id={`${path}-piece`} label={say('leaks.piece')} value={found.piece ?? ''} options={pieces.map((one) => ({ value: one, label: kindOf(one), own: true }))}
            onValue={(piece) => {
              const { course: _course, number: _number, ...rest } = found;
              put({ ...rest, piece });
            }} />
        )}
        {found.kind !== 'detail' && (isOfCourse(found.piece)
          ? <NumberField session={session} path={`${path}.course`} label={say('leaks.course')} />
          : <NumberField session={session} path={`${path}.number`} label={say('leaks.number')} />)}
        {asksBy(found.kind) && <NumberField session={session} path={`${path}.by`} label={say(`leaks.by.${found.kind}` as 'leaks.by.short')} unit={session.job.unit ?? 'mm'} needed />}
        {found.kind === 'pierced' && <NumberField session={session} path={`${path}.across`} label={say('leaks.across')} unit={session.job.unit ?? 'mm'} />}
        {found.kind === 'pierced' && <NumberField session={session} path={`${path}.up`} label={say('leaks.up')} unit={session.job.unit ?? 'mm'} />}
      </div>
      <button type="button" onClick={() => session.set(path, undefined, '')}>{say('yard.remove')}</button>
    </li>
  );
}

function LeakItem({ session, at, leak }: { session: Session; at: number; leak: Leak }) {
  const path = `leaks[${at}]`;
  const id = `leaks-${at}`;
  const none = { value: '', label: say('leaks.unknown') };
  const wind = leak.wind_from === undefined ? '' : String(Math.round(leak.wind_from / 45) % 8);
  const put = (key: string, value: unknown) => session.set(`${path}.${key}`, value, '');
  return (
    <li>
      <div class="fields">
        <div class="yard-field">
          <label for={`${id}-when`}>{say('leaks.when')}</label>
          <input id={`${id}-when`} type="text" autocomplete="off" value={leak.when ?? ''} onInput={(event) => session.set(`${path}.when`, event.currentTarget.value || undefined)} />
        </div>
        <Choice id={`${id}-where`} label={say('leaks.where')} value={leak.where ?? ''} options={[none, ...placesOf(session.job).map((one) => ({ value: keyOf(one), label: keyOf(one), own: true }))]}
          onValue={(where) => put('where', where || undefined)} />
        <Choice id={`${id}-wind`} label={say('leaks.wind')} value={wind} options={[none, ...kWinds.map((one, i) => ({ value: String(i), label: say(`leaks.wind.${one}`) }))]}
          onValue={(one) => put('wind_from', one === '' ? undefined : Number(one) * 45)} />
        <Choice id={`${id}-rain`} label={say('leaks.rain')} value={leak.rain ?? ''} options={[none, ...kRain.map((one) => ({ value: one, label: say(`leaks.rain.${one}`) }))]}
          onValue={(rain) => put('rain', rain || undefined)} />
      </div>
      <button type="button" onClick={() => session.set(path, undefined, '')}>{say('yard.remove')}</button>
    </li>
  );
}

function SuspectItem({ suspect, leaks, here, onHere }: { suspect: Suspect; leaks: Leak[]; here: boolean; onHere: () => void }) {
  const level = suspect.gives === 'any-rain' || suspect.gives === 'rain-on-wall' ? 'wrong' : suspect.gives === 'little' ? 'right' : 'doubt';
  return (
    <li class={here ? 'here' : ''}>
      <button type="button" class="plain" aria-pressed={here} onClick={onHere}>
        <Judgement level={level} /> <span data-own>{[suspect.slope, suspect.junction, suspect.face].filter(Boolean).join(' / ')}</span>
      </button>
      {suspect.texts.map((text, i) => <p key={i} data-engine>{text}</p>)}
      {suspect.leaks.map((leak) => <p key={leak}>{say('leaks.explains', { leak: leaks[leak]?.when || leak + 1 })}</p>)}
      <p class="quiet">{say('leaks.hose', { n: suspect.hose })}</p>
    </li>
  );
}

export function Leaks({ session }: { session: Session }) {
  const words = useAnswer('words', () => session.engine.words());
  const [lit, setLit] = useState(-1);
  const kindOf = (kind: string): string => words?.get(`sheet.kind.${kind}`) ?? kind;
  const { job } = session;
  const places = placesOf(job);
  const found = (valueAt(job, 'as_built') as Found[] | undefined) ?? [];
  const leaks = (valueAt(job, 'leaks') as Leak[] | undefined) ?? [];
  const existing = existingOf(session);
  const suspects = existing?.suspects ?? [];
  const first = places[0];
  const name = slopeName(job.slopes[0]!, 0);
  const views = [
    ...job.slopes.map((one, i) => ({ name: `roof/${slopeName(one, i)}`, label: slopeName(one, i), own: true })),
    ...[...(session.readable?.pictures.keys() ?? [])].filter((one) => one.startsWith('wall/')).map((one) => ({ name: one, label: one.split('/').slice(2).join(', '), own: true })),
  ];
  const [view, setView] = useState('');
  const suspected = lit >= 0 ? suspects.slice(lit, lit + 1) : suspects;
  const add = () => {
    if (!first) return;
    const piece = (session.readable?.plan?.pieces ?? []).find((one) => one.junction === first.junction)?.kind ?? 'soaker';
    session.set(`as_built[${found.length}]`, { kind: 'missing', ...first, piece } satisfies Found, '');
  };
  return (
    <Frame
      session={session}
      rung="water"
      title={say('leaks.title')}
      stage={{
        view: view || `roof/${name}`,
        views,
        onView: setView,
        look: 'no-lengths wet',
        mark: (tag) => {
          const [kind, mark, course, ...junction] = tag.split('/');
          if (kind !== 'piece') return '';
          const at = junction.join('/');
          const ofKind = (session.readable?.plan?.pieces ?? []).find((one) => one.mark === mark)?.kind;
          return suspected.some((one) =>
            one.junction === at && (!one.piece || one.found === 'detail' || one.piece === ofKind) && (!one.course || !isOfCourse(one.piece) || String(one.course - 1) === course))
            ? 'gives'
            : '';
        },
      }}
    >
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'water', rest: [] })}>{say('leaks.close')}</a></p>
      <h2>{say('leaks.title')}</h2>
      <p class="from">{say('leaks.about')}</p>
      {places.length === 0 && <p>{say('water.none')}</p>}
      {suspects.length > 0 && (
        <section>
          <h3>{say('leaks.suspects')}</h3>
          <ol class="suspects">
            {suspects.map((one, i) => <SuspectItem key={i} suspect={one} leaks={leaks} here={lit === i} onHere={() => setLit(lit === i ? -1 : i)} />)}
          </ol>
          {suspects.length > 1 && <p>{say('leaks.hose_order', { order: suspects.map((one, i) => ({ turn: one.hose, n: i + 1 })).sort((a, b) => a.turn - b.turn).map(({ n }) => n).join(', ') })}</p>}
        </section>
      )}
      {existing && suspects.length === 0 && <p class="lead-in">{say('leaks.no_suspect')}</p>}
      {(existing?.unexplained ?? []).length > 0 && (
        <section>
          <h3>{say('leaks.unexplained')}</h3>
          <ul class="proven">
            {(existing?.unexplained ?? []).map((one) => <li key={one.leak}><b data-own>{one.when || one.leak + 1}</b> <span data-engine>{one.text}</span></li>)}
          </ul>
        </section>
      )}
      <section>
        <h3>{say('leaks.seen')}</h3>
        <ul class="rack">{found.map((one, i) => <FoundItem key={i} session={session} at={i} found={one} kindOf={kindOf} />)}</ul>
        <button type="button" class="wide" disabled={!first} onClick={add}>{say('leaks.add_found')}</button>
      </section>
      <section>
        <h3>{say('leaks.noted')}</h3>
        <ul class="rack">{leaks.map((one, i) => <LeakItem key={i} session={session} at={i} leak={one} />)}</ul>
        <button type="button" class="wide" onClick={() => session.set(`leaks[${leaks.length}]`, first ? { where: keyOf(first) } : {}, '')}>{say('leaks.add_leak')}</button>
      </section>
      {(existing?.findings ?? []).length > 0 && (
        <section>
          <h3>{say('leaks.findings')}</h3>
          <Findings session={session} findings={existing?.findings ?? []} />
        </section>
      )}
    </Frame>
  );
}
