// One question: its words, the field with its units, ±, measured or guessed, and what is wrong with it, at once.
import { useEffect, useRef, useState } from 'preact/hooks';
import { typedOf, valueOf, type Unit } from '../job/answers';
import { guess } from '../job/changes';
import { faultAt, tellFault } from '../job/faults';
import { valueAt, withValue } from '../job/path';
import { isGuessed, type Question } from '../job/questions';
import type { Session } from '../session';
import { say, sayIfKnown } from '../words/words';
import { Judgement } from './judgement';
import { Pad, typed } from './pad';

const kUnits: Unit[] = ['mm', 'in', 'ft', 'm'];

interface Props {
  session: Session;
  asked: Question;
  count: string; // which of how many
  focus: boolean;
}

export function QuestionCard({ session, asked, count, focus }: Props) {
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
  const told = fault && tellFault(fault, fault.path.endsWith('[1]') && asked.spread ? held.spread : held.text);

  useEffect(() => {
    setOther(null);
    setOnSpread(false);
    if (focus) field.current?.focus({ preventScroll: true });
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
  // A phone's own keyboard would cover the drawing: the pad types there.
  const byThumb = matchMedia('(pointer: coarse)').matches;
  const id = `ask-${asked.path.replace(/\W+/g, '-')}`;

  return (
    <div class="question">
      <p class="about"><span data-own>{asked.about}</span> <span>{count}</span></p>
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
              inputMode={byThumb ? 'none' : asked.kind === 'angle' ? 'decimal' : 'text'}
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
          </div>
          <div id={`${id}-wrong`} aria-live="polite">
            {fault && (
              <p class="wrong-here">
                <Judgement level="wrong" />{' '}
                {told?.text} <span data-engine>{told?.own}</span>
              </p>
            )}
          </div>
          <div class="how">
            {asked.spread && (
              <label class="spread">
                <span aria-hidden="true">±</span>
                <input
                  type="text"
                  inputMode={byThumb ? 'none' : 'decimal'}
                  autocomplete="off"
                  value={held.spread}
                  aria-label={say('ask.spread')}
                  onFocus={() => setOnSpread(true)}
                  onInput={(event) => put(held.text, event.currentTarget.value, unit, false)}
                />
              </label>
            )}
            <div class="choice" role="group" aria-label={say('ask.how')}>
              <button type="button" aria-pressed={!guessed} onClick={() => session.change(guess(job, asked.path, false))}>
                {say('ask.measured')}
              </button>
              <button type="button" aria-pressed={guessed} onClick={() => session.change(guess(job, asked.path, true))}>
                {say('ask.guessed')}
              </button>
            </div>
          </div>
          <Pad
            onKey={key}
            units={asked.kind === 'length' ? kUnits : []}
            unit={unit}
            onUnit={(one) => {
              setOther(one);
              if (held.text.trim() !== '') put(held.text, held.spread, one, false);
            }}
          />
        </>
      )}
    </div>
  );
}
