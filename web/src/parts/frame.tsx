// Every rung's page: the ladder, the drawing, and one column for the thing in hand.
import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { ladderStates } from '../job/ladder_states';
import { addressOf, type Rung } from '../route';
import type { Session } from '../session';
import { useRoom } from '../use';
import { say } from '../words/words';
import { Drawing, type Near } from './drawing';
import { FaultsElsewhere } from './faults_elsewhere';
import { Ladder } from './ladder';
import { Saving } from './saving';

export interface View {
  name: string; // of the engine's picture
  label: string;
  own?: boolean; // the person's own name for it, not a word of the page
}

export interface Stage {
  view: string;
  views: View[];
  onView: (name: string) => void;
  look?: string;
  mark: (tag: string) => string;
  onTags?: (tags: string[]) => void;
  onPlace?: ((u: number, s: number) => void) | undefined;
  near?: Near; // what is brought near when the picture opens
  own?: ComponentChildren; // in place of a picture of the roof
}

interface FrameProps {
  session: Session;
  rung: Rung;
  stage: Stage;
  title: string;
  asked?: string; // the value that is asked for here: what is wrong with it is told at its field
  children: ComponentChildren;
}

export function Frame({ session, rung, stage, title, asked = '', children }: FrameProps) {
  const room = useRef<HTMLDivElement>(null);
  useRoom(room, (width, height) => session.giveRoom({ width: Math.max(60, width), height: Math.max(50, height) }));
  const pictures = session.readable?.pictures;
  const shown = pictures?.has(stage.view) ? stage.view : (stage.views.find((one) => pictures?.has(one.name))?.name ?? '');
  const svg = pictures?.get(shown) ?? '';
  const stale = session.readable !== null && session.seen !== session.readable;
  return (
    <div class={`job at-${rung}`}>
      <header class="top">
        <a class="back" href={addressOf({ at: 'jobs' })}>{say('jobs.all')}</a>
        <div class="what">
          <h1 data-own>{session.job.title || say('job.untitled')}</h1>
          <Saving session={session} />
        </div>
        <div class="undo">
          <button type="button" disabled={!session.canUndo} onClick={() => session.undo()}>{say('undo')}</button>
          <button type="button" disabled={!session.canRedo} onClick={() => session.redo()}>{say('redo')}</button>
        </div>
      </header>
      <Ladder id={session.id} here={rung} states={ladderStates(session)} />
      <main class="stage" aria-busy={session.looking}>
        {stage.views.length > 1 && !stage.own && (
          <div class="views" role="group" aria-label={say('drawing.views')}>
            {stage.views.map((one) => (
              <button
                key={one.name}
                type="button"
                aria-pressed={one.name === shown}
                onClick={() => stage.onView(one.name)}
              >
                <span {...(one.own ? { 'data-own': '' } : {})}>{one.label}</span>
              </button>
            ))}
          </div>
        )}
        <div class={`room ${stage.own ? 'own' : ''} ${stale ? 'stale' : ''} ${stage.onPlace ? 'placing' : ''}`} ref={room}>
          {stage.own ?? (svg ? (
            <Drawing
              svg={svg}
              name={shown}
              label={stage.views.find((one) => one.name === shown)?.label ?? say('drawing.roof')}
              look={stage.look ?? ''}
              mark={stage.mark}
              onZoom={(nearer) => session.lookNearer(nearer)}
              nearer={session.readableNearer}
              {...(stage.onTags ? { onTags: stage.onTags } : {})}
              {...(stage.near ? { near: stage.near } : {})}
              onPlace={stage.onPlace}
            />
          ) : (
            <p class="nothing">{session.trouble ? say('engine.trouble') : say(session.seen ? 'drawing.none' : 'app.loading')}</p>
          ))}
        </div>
      </main>
      <section class="panel" aria-label={title} tabIndex={-1}>
        <FaultsElsewhere session={session} here={asked} />
        {children}
      </section>
    </div>
  );
}
