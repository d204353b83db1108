// The yard: what lead can be had and what everything costs. One for all jobs, kept on this device.
import { useState } from 'preact/hooks';
import type { Fault } from '../engine/engine';
import { download, fileName, pickFile } from '../job/files';
import { slopeName } from '../job/job_parts';
import { Frame } from '../parts/frame';
import { Judgement } from '../parts/judgement';
import { addressOf } from '../route';
import type { Session } from '../session';
import { say, sayMany } from '../words/words';
import { useYard } from './use_board';
import { YardField } from './yard_fields';
import { YardCutting, YardPrices, YardTerms, YardWork } from './yard_prices';
import { YardRack, YardRolls } from './yard_rolls';

export function YardScreen({ session, part }: { session: Session; part: string }) {
  const book = useYard(session);
  const [refused, setRefused] = useState<Fault[]>([]);
  const { yard } = book;
  const bring = async () => {
    const text = await pickFile('application/json,.json');
    if (text !== null) setRefused(await book.take(text));
  };
  return (
    <Frame
      session={session}
      rung="cut"
      title={say('yard.title')}
      stage={{ view: `roof/${slopeName(session.job.slopes[0]!, 0)}`, views: [], onView: () => undefined, look: 'no-lengths', mark: () => '' }}
    >
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: part === 'price' ? 'papers' : 'cut', rest: part === 'price' ? ['price'] : [] })}>{say('yard.close')}</a></p>
      <h2>{say('yard.title')}</h2>
      <p class="from">{say('yard.about')}</p>
      {book.invented && <p class="insisted">{say('yard.invented')}</p>}
      {yard && (
        <>
          <div class="yard-hands">
            <button type="button" disabled={!book.canUndo} onClick={() => book.undo()}>{say('yard.undo')}</button>
            <button type="button" onClick={() => void bring()}>{say('yard.import')}</button>
            <button type="button" onClick={() => download(fileName(yard.title ?? 'yard', '.json'), 'application/json', book.text)}>{say('yard.export')}</button>
            {book.own && <button type="button" onClick={() => void book.restore()}>{say('yard.restore')}</button>}
          </div>
          <p class="quiet" role="status">{say(`yard.state.${book.state}` as 'yard.state.saved')}</p>
          {refused.length > 0 && (
            <div class="wrong-here" role="alert">
              <p><Judgement level="wrong" /> {say('yard.refused')}</p>
              <ul data-engine>
                {refused.map((fault, i) => <li key={i}><b>{fault.path}</b> {fault.read}: {[fault.accepted, fault.mend].filter(Boolean).join('; ')}</li>)}
              </ul>
            </div>
          )}
          {book.faults.length > 0 && <p class="wrong-here" role="status"><Judgement level="wrong" /> {sayMany('yard.wrong', book.faults.length)}</p>}
          <YardField book={book} path="title" label={say('yard.name')} kind="text" />
          <label class="tick">
            <input
              type="checkbox"
              checked={book.invented}
              onChange={(event) => book.put({ ...yard, prices_are: event.currentTarget.checked ? 'invented' : 'own' })}
            />
            {say('yard.are_invented')}
          </label>
          <YardRolls book={book} />
          <YardRack book={book} />
          <YardPrices book={book} />
          <YardWork book={book} />
          <YardTerms book={book} />
          <YardCutting book={book} />
          <section>
            <YardField book={book} path="currency" label={say('yard.currency')} kind="text" />
          </section>
        </>
      )}
    </Frame>
  );
}
