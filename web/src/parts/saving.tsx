// Where the job stands: saved, being saved, or what keeps it from being saved and what to do.
import type { Session } from '../session';
import { say } from '../words/words';

export function Saving({ session }: { session: Session }) {
  const state = session.saving;
  return (
    <div class={`saving ${state}`}>
      <p role="status">{say(`save.${state}`)}</p>
      {state === 'other' && (
        <div class="choices">
          <button type="button" onClick={() => void session.takeTheirs()}>{say('save.take_theirs')}</button>
          <button type="button" onClick={() => void session.keepMine()}>{say('save.keep_mine')}</button>
        </div>
      )}
    </div>
  );
}
