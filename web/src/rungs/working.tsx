// What is under way, with a way to end it; what keeps it from being made.
import type { Fault } from '../engine/engine';
import { Judgement } from '../parts/judgement';
import { addressOf } from '../route';
import type { Session } from '../session';
import { say, sayMany } from '../words/words';
import type { Board } from './board';

export function Working({ board }: { board: Board }) {
  const { going } = board;
  if (board.failed) return <p role="alert">{say('engine.trouble')}</p>;
  if (!going || (!going.papers && board.effort === 0)) return null;
  return (
    <div class="working">
      <label>
        <span role="status">{say(going.papers ? 'papers.making' : 'cut.looking')}</span>
        <progress value={Math.round(going.share * 100)} max={100} />
      </label>
      {going.papers ? (
        <button type="button" onClick={() => board.cancelPapers()}>{say('papers.cancel')}</button>
      ) : (
        <button type="button" disabled={!going.whole} onClick={() => board.stop()}>{say('cut.enough')}</button>
      )}
    </div>
  );
}

// What the yard holds that is wrong stands between it and any price.
export function YardFaults({ session, faults }: { session: Session; faults: Fault[] }) {
  if (faults.length === 0) return null;
  const ofYard = faults.every((fault) => fault.path.startsWith('$'));
  return (
    <div class="wrong-here" role="alert">
      <p><Judgement level="wrong" /> {ofYard ? sayMany('yard.wrong', faults.length) : say('yard.faults')}</p>
      {!ofYard && <ul data-engine>{faults.map((fault, i) => <li key={i}>{[fault.accepted, fault.mend].filter(Boolean).join('; ')}</li>)}</ul>}
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'cut', rest: ['yard'] })}>{say('yard.open')}</a></p>
    </div>
  );
}
