// Where the job stands: saved, being saved, or what keeps it from being saved and what to do.
import type { Session } from '../session';
import { say } from '../words/words';

export function Saving({ session }: { session: Session }) {
  const state = session.saving;
  return (
    <div class={`saving ${state} ${session.left === null ? '' : 'left'}`}>
      <p role="status">{say(`save.${state}`)}</p>
      {session.left !== null && state !== 'other' && (
        <>
          <p role="status">{say('save.left')}</p>
          <div class="choices">
            <button type="button" onClick={() => session.takeLeft()}>{say('save.take_left')}</button>
            <button type="button" onClick={() => session.dropLeft()}>{say('save.drop_left')}</button>
          </div>
        </>
      )}
      {state === 'other' && (
        <div class="choices">
          <button type="button" onClick={() => void session.takeTheirs()}>{say('save.take_theirs')}</button>
          <button type="button" onClick={() => void session.keepMine()}>{say('save.keep_mine')}</button>
        </div>
      )}
    </div>
  );
}
