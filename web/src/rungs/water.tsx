// Water: drift and wind turned by hand, every junction held against them and against the covering's own limit.
import { useState } from 'preact/hooks';
import { slopeName } from '../job/job_parts';
import { Findings } from '../parts/findings';
import { Frame, type View } from '../parts/frame';
import { Judgement } from '../parts/judgement';
import { addressOf, go } from '../route';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say } from '../words/words';
import { Leaks } from './leaks';
import { Limits } from './limits';
import { Odds } from './odds';
import { number } from './shown';
import { climbOf, coveringCurve, firstDrift, firstWind, leadCurve, verdictOf, type Frontier, type Verdict } from './weather';

const kMostDrift = 60; // degrees
const kMostWind = 40; // m/s

const nameOf = (f: Frontier): string => `${f.slope} / ${f.junction}`;

// In words: who gives, the lead or the covering as well.
function saidOf(f: Frontier, lead: Verdict, covering: Verdict) {
  if (f.drift < 0 || f.climb < 0) return say('water.leaks_dry');
  if (lead === 'right') return say('water.stands');
  if (lead === 'doubt') return say('water.between');
  // A soaker lies back a little from the unit's tail: what gives that little sooner is right all the same.
  const near = covering === 'doubt' || f.holds;
  return say(covering === 'wrong' ? 'water.both_give' : near ? 'water.gives_near' : 'water.lead_gives');
}

interface DialProps {
  id: string;
  label: string;
  about: string;
  shown: string;
  value: number;
  most: number;
  onValue: (value: number) => void;
}

function Dial({ id, label, about, shown, value, most, onValue }: DialProps) {
  return (
    <div class="dial">
      <label for={id}>{label} <output for={id}>{shown}</output></label>
      <input
        id={id}
        type="range"
        min={0}
        max={most}
        step={0.5}
        value={value}
        aria-describedby={`${id}-about`}
        aria-valuetext={shown}
        onInput={(event) => onValue(Number(event.currentTarget.value))}
      />
      <p class="from" id={`${id}-about`}>{about}</p>
    </div>
  );
}

export function Water({ session, rest }: { session: Session; rest: string[] }) {
  return rest[0] === 'leaks' && rest.length === 1 ? <Leaks session={session} /> : <Weather session={session} rest={rest} />;
}

function Weather({ session, rest }: { session: Session; rest: string[] }) {
  const [drift, setDrift] = useState(0);
  const [wind, setWind] = useState(0);
  const [view, setView] = useState('');
  const { job, readable } = session;
  const plan = readable?.plan;
  // An engine that has no words for it cannot tell it.
  const words = useAnswer('words', () => session.engine.words());
  const all = plan?.check ?? [];
  const judged = all.map((f) => {
    const climb = climbOf(wind, f, all);
    return { f, climb, lead: verdictOf(leadCurve(f), drift, climb), covering: verdictOf(coveringCurve(f), drift, climb) };
  });
  const here = judged.find(({ f }) => f.slope === rest[0] && f.junction === rest[1]);
  const wrong = judged.filter((one) => one.lead === 'wrong').length;
  const found = (plan?.findings ?? []).filter((one) => one.rule.startsWith('check.'));
  const ofJunction = (f: Frontier) => found.filter((one) => (one.where ?? '').startsWith(nameOf(f)));
  const at = (...to: string[]) => ({ at: 'job' as const, id: session.id, rung: 'water' as const, rest: to });
  const named = [...(readable?.pictures.keys() ?? [])];
  const views: View[] = [
    ...named.filter((name) => name.startsWith('water/')).map((name) => ({ name, label: say('water.of', { junction: name.split('/').slice(2).join('/') }) })),
    ...job.slopes.map((one, i) => ({ name: `roof/${slopeName(one, i)}`, label: slopeName(one, i), own: true })),
    ...named.filter((name) => name.startsWith('wall/')).map((name) => ({ name, label: name.split('/').slice(2).join(', '), own: true })),
  ];
  const ownView = here && views.find(({ name }) => name === `water/${here.f.slope}/${here.f.junction}`)?.name;
  const roof = views.find(({ name }) => name.startsWith('roof/'))?.name;
  const shown = view || ownView || roof || '';
  const gives = (junction: string) => judged.find((one) => one.f.junction === junction)?.lead ?? 'right';

  return (
    <Frame
      session={session}
      rung="water"
      title={say('rung.water')}
      stage={{
        view: shown,
        views,
        onView: setView,
        look: 'no-lengths wet',
        mark: (tag) => {
          const [kind, , , ...junction] = tag.split('/');
          if (kind !== 'piece') return '';
          const name = junction.join('/');
          return gives(name) === 'wrong' ? 'gives' : here?.f.junction === name ? 'lit' : '';
        },
        onTags: (tags) => {
          const junction = tags.map((tag) => tag.split('/')).find(([kind]) => kind === 'piece')?.slice(3).join('/');
          const on = judged.find(({ f }) => f.junction === junction);
          if (on) go(at(on.f.slope, on.f.junction));
        },
      }}
    >
      <h2>{say('rung.water')}</h2>
      {all.length === 0 && <p>{say(plan ? 'water.none' : 'app.loading')}</p>}
      {all.length > 0 && (
        <>
          <Dial id="drift" label={say('water.drift')} about={say('water.drift.about')} shown={say('water.degrees', { n: number(drift, 1) })} value={drift} most={kMostDrift} onValue={setDrift} />
          <Dial id="wind" label={say('water.wind')} about={say('water.wind.about')} shown={say('water.speed', { n: number(wind, 1) })} value={wind} most={kMostWind} onValue={setWind} />
          <div class="hands">
            <button
              type="button"
              onClick={() => {
                const first = firstDrift(all);
                if (!first) return;
                setWind(0);
                setDrift(Math.min(kMostDrift, Math.floor(first.at * 2 + 1) / 2));
                go(at(first.of.slope, first.of.junction));
              }}
            >
              {say('water.turn_drift')}
            </button>
            <button
              type="button"
              onClick={() => {
                const first = firstWind(all);
                if (!first) return;
                setDrift(0);
                setWind(Math.min(kMostWind, Math.floor(first.at * 2 + 1) / 2));
                go(at(first.of.slope, first.of.junction));
              }}
            >
              {say('water.turn_wind')}
            </button>
            <button type="button" disabled={drift === 0 && wind === 0} onClick={() => { setDrift(0); setWind(0); }}>{say('water.calm')}</button>
          </div>
          {shown.startsWith('water/') && <p class="from">{say('water.picture')}</p>}
          <p class="lead-in" role="status">{wrong === 0 ? say('water.all_stand') : say('water.some_give', { count: wrong, of: all.length })}</p>
          <ul class="frontiers">
            {judged.map((one) => (
              <li key={nameOf(one.f)} class={one === here ? 'here' : ''}>
                <a href={addressOf(one === here ? at() : at(one.f.slope, one.f.junction))} aria-expanded={one === here}>
                  <Judgement level={one.lead} /> <b data-own>{nameOf(one.f)}</b>
                </a>
                <p>{saidOf(one.f, one.lead, one.covering)}</p>
                {one === here && (
                  <div class="opened">
                    <Limits f={one.f} drift={drift} climb={one.climb} />
                    <dl class="sums">
                      <div><dt>{say('water.stands_drift')}</dt><dd>{say('water.degrees', { n: number(Math.max(0, one.f.drift), 1) })}</dd></div>
                      <div><dt>{say('water.covering_drift')}</dt><dd>{say('water.degrees', { n: number(one.f.covering_drift, 1) })}</dd></div>
                      <div><dt>{say('water.stands_wind')}</dt><dd>{say('water.speed', { n: number(one.f.wind, 1) })}</dd></div>
                      <div><dt>{say('water.stands_climb')}</dt><dd>{say('water.mm', { n: number(Math.max(0, one.f.climb), 0) })}</dd></div>
                      <div><dt>{say('water.covering_climb')}</dt><dd>{say('water.mm', { n: number(one.f.covering_climb, 0) })}</dd></div>
                      <div><dt>{say('water.run')}</dt><dd>{say('water.run_of', { mm: number(one.f.run, 0), courses: one.f.courses })}</dd></div>
                    </dl>
                    <Findings session={session} findings={ofJunction(one.f)} />
                  </div>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
      {!here && (
        <section>
          <h3>{say('findings.title')}</h3>
          <Findings session={session} findings={found} />
        </section>
      )}
      {words?.has('existing.title') && <p><a class="button wide" href={addressOf(at('leaks'))}>{say('leaks.open')}</a></p>}
      {words?.has('odds.title') && <Odds session={session} />}
      <p class="quiet">{say('water.model')}</p>
    </Frame>
  );
}
