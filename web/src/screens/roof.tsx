// On the roof: one step, its picture, "next" across the lower third. The screen stays awake; ticks are kept.
import { useEffect, useState } from 'preact/hooks';
import { keysOf, layerOf, pictureOf } from '../job/steps';
import { Drawing } from '../parts/drawing';
import { addressOf } from '../route';
import type { Session } from '../session';
import { keepTicks, ticksOf } from '../store/ticks';
import { say } from '../words/words';

function useAwake(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let ended = false;
    const ask = async () => {
      if (document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
      try {
        lock = await navigator.wakeLock.request('screen');
        if (ended) void lock.release();
      } catch {
        lock = null; // a low battery may refuse it
      }
    };
    const again = () => void ask();
    void ask();
    document.addEventListener('visibilitychange', again);
    return () => {
      ended = true;
      document.removeEventListener('visibilitychange', again);
      void lock?.release();
    };
  }, []);
}

export function OnTheRoof({ session }: { session: Session }) {
  useAwake();
  const steps = session.readable?.plan?.order_of_work ?? [];
  const keys = keysOf(steps);
  const [ticks, setTicks] = useState(() => ticksOf(session.id));
  const [at, setAt] = useState(-1);
  useEffect(() => session.giveRoom({ width: innerWidth / 3.78, height: (innerHeight * 0.45) / 3.78 }), []);
  const firstOpen = keys.findIndex((key) => !ticks.has(key));
  const here = at >= 0 ? Math.min(at, steps.length - 1) : firstOpen >= 0 ? firstOpen : 0;
  const step = steps[here];
  const leave = addressOf({ at: 'job', id: session.id, rung: 'lead', rest: [] });
  const tick = (key: string, done: boolean) => {
    const next = new Set(ticks);
    if (done) next.add(key);
    else next.delete(key);
    setTicks(next);
    keepTicks(session.id, next);
  };
  const next = () => {
    tick(keys[here] ?? '', true);
    setAt(Math.min(here + 1, steps.length - 1));
  };
  if (!step) {
    return (
      <main class="on-roof">
        <p class="nothing">{say(session.seen ? 'roof.none' : 'app.loading')}</p>
        <a class="button" href={leave}>{say('roof.leave')}</a>
      </main>
    );
  }
  const done = ticks.has(keys[here] ?? '');
  const picture = pictureOf(step, session.readable?.pictures.keys() ?? []);
  const layer = layerOf(steps, here);
  return (
    <main class="on-roof">
      <header>
        <a class="button" href={leave}>{say('roof.leave')}</a>
        <p>{say('roof.count', { n: here + 1, of: steps.length })}</p>
        <label class="tick">
          <input type="checkbox" checked={done} onChange={(event) => tick(keys[here] ?? '', event.currentTarget.checked)} />
          {say('roof.done')}
        </label>
      </header>
      <progress value={ticks.size} max={steps.length} aria-label={say('roof.progress')} />
      <div class="room">
        <Drawing
          svg={session.readable?.pictures.get(picture) ?? ''}
          name={picture}
          label={say('roof.picture', { n: here + 1 })}
          look="no-lengths no-marks stepping"
          mark={layer}
          near={{ key: String(here), has: (tag) => tag.startsWith('piece/') && layer(tag) === 'now' }}
          onZoom={(nearer) => session.lookNearer(nearer)}
          nearer={session.readableNearer}
        />
      </div>
      <h1 class="step" aria-live="polite" data-engine>{step.text}</h1>
      <div class="hands">
        <button type="button" disabled={here === 0} onClick={() => setAt(here - 1)}>{say('roof.back')}</button>
        <button type="button" class="next" onClick={next}>{say(here + 1 < steps.length ? 'roof.next' : 'roof.finish')}</button>
      </div>
    </main>
  );
}
