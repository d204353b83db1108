// One piece: its flat shape with its folds, and the why of every number.
import type { Plan } from '../generated/plan';
import { addressOf } from '../route';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say } from '../words/words';
import { Drawing } from './drawing';
import { Whys } from './why';

export type Piece = NonNullable<Plan['pieces']>[number];

export function PiecePanel({ session, piece, kind }: { session: Session; piece: Piece; kind: string }) {
  const why = useAnswer(`${session.readableText}|${piece.mark}`, () =>
    session.engine.why(session.readableText, piece.mark, { width: 96, height: 70 }));
  return (
    <>
      <p>
        <a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'lead', rest: ['at', piece.slope, piece.junction ?? ''] })}>
          {say('lead.all')}
        </a>
      </p>
      <h2><span class="ring" data-engine>{piece.mark}</span> <span data-engine>{kind}</span></h2>
      <p class="lead-in">
        {say('lead.piece', { count: piece.count, length: Math.ceil(piece.length), width: Math.ceil(piece.width) })}{' '}
        {piece.code !== undefined && say('lead.code', { code: piece.code })}{' '}
        <span data-own>{piece.junction}</span>
      </p>
      {why?.picture && (
        <div class="flat">
          <Drawing svg={why.picture} name={`piece/${piece.mark}`} label={say('lead.flat', { mark: piece.mark })} look="" mark={() => ''} />
        </div>
      )}
      <h3>{say('lead.why')}</h3>
      <Whys session={session} figures={why?.figures ?? []} />
    </>
  );
}
