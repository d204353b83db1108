// One question: its words, the field with its units, ±, measured or guessed, and what is wrong with it, at once.
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Fault } from '../engine/engine';
import { typedOf, valueOf, type Unit } from '../job/answers';
import { guess } from '../job/changes';
import { valueAt, withValue } from '../job/path';
import { isGuessed, type Question } from '../job/questions';
import type { Session } from '../session';
import { say, sayIfKnown } from '../words/words';
import { Judgement } from './judgement';
import { Pad, typed } from './pad';

const kUnits: Unit[] = ['mm', 'in', 'ft', 'm'];

function faultAt(faults: Fault[], path: string): Fault | undefined {
  return faults.find((fault) => {
    const at = fault.path.replace(/^\$\.?/, '');
    return at === path || at.startsWith(`${path}[`) || at.startsWith(`${path}.`);
  });
}

export function QuestionCard({ session, asked, focus }: { session: Session; asked: Question; focus: boolean }) {
  const { job } = session;
  const bare: Unit = job.unit ?? 'mm';
  const field = useRef<HTMLInputElement>(null);
  const [other, setOther] = useState<Unit | null>(null);
  const [onSpread, setOnSpread] = useState(false);
  const value = valueAt(job, asked.path);
  const held = typedOf(value, bare);
  const unit = asked.kind === 'angle' ? '' : (other ?? held.unit);
  const fault = session.seen ? faultAt(session.seen.faults, asked.path) : undefined;
  const guessed = isGuessed(job, asked);

  useEffect(() => {
    setOther(null);
    setOnSpread(false);
    // A phone's own keyboard would cover the drawing: there the pad types, and the field waits to be touched.
    if (focus && matchMedia('(pointer: fine)').matches) field.current?.focus({ preventScroll: true });
  }, [asked.path]);

  // Answered with a number of one's own, it is measured until said otherwise.
  const put = (text: string, spread: string, which: Unit, touched = true) => {
    const next = valueOf({ text, spread, unit: which }, bare);
    const kept = next === undefined && asked.needed ? '' : next;
    const answer = withValue(job, asked.path, kept);
    session.change(touched && guessed && text !== held.text ? guess(answer, asked.path, false) : answer, asked.path);
  };
  const key = (pressed: string) => {
    if (onSpread) put(held.text, typed(held.spread, pressed), unit);
    else put(typed(held.text, pressed), held.spread, pressed.includes('/') && unit === 'mm' ? 'in' : unit);
  };
  const id = `ask-${asked.path.replace(/\W+/g, '-')}`;

  return (
    <div class="question">
      <p class="about" data-own>{asked.about}</p>
      <h2 id={id}>{sayIfKnown(`ask.${asked.ask}`, asked.ask)}</h2>
      <p class="from" id={`${id}-from`}>{sayIfKnown(`ask.${asked.ask}.from`, '')}</p>
      {asked.kind === 'choice' ? (
        <div class="options" role="group" aria-labelledby={id}>
          {asked.options.map((option) => (
            <button
              key={option}
              type="button"
              aria-pressed={(value ?? asked.otherwise) === option}
              onClick={() => session.set(asked.path, option, '')}
            >
              {sayIfKnown(`choice.${option}`, option)}
            </button>
          ))}
        </div>
      ) : (
        <>
          <div class={`field ${fault ? 'is-wrong' : ''}`}>
            <input
              ref={field}
              type="text"
              inputMode={asked.kind === 'angle' ? 'decimal' : 'text'}
              autocomplete="off"
              class="number"
              value={held.text}
              aria-labelledby={id}
              aria-describedby={`${id}-from ${id}-wrong`}
              aria-invalid={fault !== undefined}
              onFocus={() => setOnSpread(false)}
              onInput={(event) => put(event.currentTarget.value, held.spread, unit)}
            />
            <span class="unit" aria-hidden="true">{asked.kind === 'angle' ? '°' : unit}</span>
            {asked.spread && (
              <label class="spread">
                <span aria-hidden="true">±</span>
                <input
                  type="text"
                  inputMode="decimal"
                  autocomplete="off"
                  value={held.spread}
                  aria-label={say('ask.spread')}
                  onFocus={() => setOnSpread(true)}
                  onInput={(event) => put(held.text, event.currentTarget.value, unit, false)}
                />
              </label>
            )}
          </div>
          <div id={`${id}-wrong`} aria-live="polite">
            {fault && (
              <p class="wrong-here">
                <Judgement level="wrong" />{' '}
                <span data-engine>{[fault.accepted, fault.mend].filter(Boolean).join('; ')}</span>
              </p>
            )}
          </div>
          <div class="how">
            <div class="choice" role="group" aria-label={say('ask.how')}>
              <button type="button" aria-pressed={!guessed} onClick={() => session.change(guess(job, asked.path, false))}>
                {say('ask.measured')}
              </button>
              <button type="button" aria-pressed={guessed} onClick={() => session.change(guess(job, asked.path, true))}>
                {say('ask.guessed')}
              </button>
            </div>
            {asked.kind === 'length' && (
              <div class="choice units" role="group" aria-label={say('ask.unit')}>
                {kUnits.map((one) => (
                  <button
                    key={one}
                    type="button"
                    aria-pressed={unit === one}
                    onClick={() => {
                      setOther(one);
                      if (held.text.trim() !== '') put(held.text, held.spread, one, false);
                    }}
                  >
                    {one}
                  </button>
                ))}
              </div>
            )}
          </div>
          <Pad onKey={key} fractions={asked.kind === 'length' && (unit === 'in' || unit === 'ft')} />
        </>
      )}
    </div>
  );
}
