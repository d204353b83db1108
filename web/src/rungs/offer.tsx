// A price that somebody else gave, in the words that it was given in, beside the yard's.
import { useState } from 'preact/hooks';
import type { Fault } from '../engine/engine';
import { Judgement } from '../parts/judgement';
import type { Session } from '../session';
import { say } from '../words/words';

type State = { at: 'none' } | { at: 'said'; lines: string[] } | { at: 'wrong'; faults: Fault[] };

export function Offer({ session, yard }: { session: Session; yard: string }) {
  const [words, setWords] = useState('');
  const [state, put] = useState<State>({ at: 'none' });
  const ask = async () => {
    if (words.trim() === '' || yard === '') return;
    const answer = await session.engine.offer(words, yard);
    put(answer.value === null ? { at: 'wrong', faults: answer.faults } : { at: 'said', lines: answer.value.split('\n').filter(Boolean) });
  };
  return (
    <section class="offer">
      <h3>{say('offer.title')}</h3>
      <p class="from" id="offer-how">{say('offer.how')}</p>
      <form
        class="own"
        onSubmit={(event) => {
          event.preventDefault();
          void ask();
        }}
      >
        <label>
          {say('offer.words')}
          <input type="text" autocomplete="off" value={words} aria-describedby="offer-how" onInput={(event) => setWords(event.currentTarget.value)} />
        </label>
        <button type="submit">{say('offer.ask')}</button>
      </form>
      <div aria-live="polite">
        {state.at === 'said' && <ul class="proven" data-engine>{state.lines.map((line) => <li key={line}>{line}</li>)}</ul>}
        {state.at === 'wrong' && state.faults.map((fault, i) => (
          <p key={i} class="wrong-here"><Judgement level="wrong" /> <span data-engine>{[fault.read, fault.accepted, fault.mend].filter(Boolean).join('; ')}</span></p>
        ))}
      </div>
    </section>
  );
}
