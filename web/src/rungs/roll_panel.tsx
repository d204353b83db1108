// One roll: its cuts in order, each ticked as it is cut; the pieces that come off it; what is left.
import { isInches } from '../job/job_parts';
import { addressOf } from '../route';
import type { Session } from '../session';
import { say, sayMany } from '../words/words';
import { keyOf, partsOf, runsOf, type CutStep, type Roll } from './cut_steps';
import { sized, tape } from './shown';

interface Props {
  session: Session;
  roll: Roll;
  mark: string;
  ticks: Set<string>;
  onTick: (keys: string[], done: boolean) => void;
}

function Part({ name, marks }: { name: string; marks: Set<string> }) {
  if (name === '') return <span class="part">{say('cut.left_over')}</span>;
  return marks.has(name) ? <span class="ring" data-engine>{name}</span> : <span class="part" data-engine>{name}</span>;
}

function Step({ step, of, marks, inches }: { step: CutStep; of: number; marks: Set<string>; inches: boolean }) {
  return (
    <div class="cut">
      <p class="what">
        {step.part === 'roll'
          ? <b>{say('cut.the_roll')}</b>
          : <><Part name={step.part} marks={marks} /> {of > 1 && <b>{say('cut.each', { count: of })}</b>}</>}{' '}
        {say(`cut.way.${step.way}`)}
      </p>
      <ul class="runs">
        {runsOf(step).map((run, i) => (
          <li key={i}>
            <Part name={run.part} marks={marks} />
            {run.count > 1 && <span class="times">{say('lead.times', { count: run.count })}</span>}
            <span class="tape">
              {run.marks.length === 0 && step.way !== 'teeth' ? say('cut.to_the_end') : run.marks.map((at) => <b key={at}>{tape(at, inches)}</b>)}
            </span>
          </li>
        ))}
      </ul>
    </div>
  );
}

export function RollPanel({ session, roll, mark, ticks, onTick }: Props) {
  const marks = new Set((roll.pieces ?? []).map((piece) => piece.mark));
  const parts = partsOf(roll);
  const done = roll.cuts.filter((step) => ticks.has(keyOf(roll, step))).length;
  const count = new Map<string, number>();
  for (const piece of roll.pieces ?? []) count.set(piece.mark, (count.get(piece.mark) ?? 0) + 1);
  const at = (...rest: string[]) => addressOf({ at: 'job', id: session.id, rung: 'cut', rest });
  const left = roll.left ?? [];
  const inches = isInches(session.job);
  return (
    <>
      <p><a class="button" href={at()}>{say('cut.all')}</a></p>
      <h2><span class="ring" data-engine>{roll.name}</span> {say('cut.count', { done, of: roll.cuts.length })}</h2>
      <p class="from">{say('cut.hook')}</p>
      <ul class="pieces-of">
        {[...count].map(([one, n]) => (
          <li key={one}>
            <a class="button" href={one === mark ? at(roll.name) : at(roll.name, one)} aria-current={one === mark ? 'true' : undefined}>
              <b data-engine>{one}</b> {say('lead.times', { count: n })}
            </a>
          </li>
        ))}
      </ul>
      {mark !== '' && marks.has(mark) && (
        <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'lead', rest: ['piece', mark] })}>{say('cut.piece')}</a></p>
      )}
      <ol class="cuts">
        {roll.cuts.map((step, i) => {
          const key = keyOf(roll, step);
          const lit = mark !== '' && step.gives.includes(mark);
          return (
            <li key={key} class={`${ticks.has(key) ? 'done' : ''} ${lit ? 'lit' : ''}`}>
              <label class="tick">
                <input type="checkbox" checked={ticks.has(key)} onChange={(event) => onTick([key], event.currentTarget.checked)} />
                <span class="unseen">{say('cut.tick', { n: i + 1 })}</span>
                <span aria-hidden="true">{i + 1}</span>
              </label>
              <Step step={step} of={parts.get(step.part) ?? 1} marks={marks} inches={inches} />
            </li>
          );
        })}
      </ol>
      <section>
        <h3>{say('cut.left')}</h3>
        <ul class="proven">
          {left.filter((one) => one.keep).map((one, i) => (
            <li key={i}>{say('cut.keep', { size: sized(one.length, one.width, inches) })}</li>
          ))}
          {left.some((one) => !one.keep) && <li>{sayMany('cut.scrap_rest', left.filter((one) => !one.keep).length)}</li>}
        </ul>
      </section>
    </>
  );
}
