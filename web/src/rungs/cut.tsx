// Cut: every roll as a strip to scale, what to buy and how good that is, the cuts in order with their tape distances.
import { useEffect, useRef, useState } from 'preact/hooks';
import { isInches, slopeName } from '../job/job_parts';
import { Frame } from '../parts/frame';
import { addressOf, go } from '../route';
import type { Session } from '../session';
import { keepTicks, ticksOf } from '../store/ticks';
import { say } from '../words/words';
import { keyOf, type Cutting, type Roll } from './cut_steps';
import { CutSums } from './cut_sums';
import { RollPanel } from './roll_panel';
import { number, sized } from './shown';
import { Strip } from './strip';
import { useBoard } from './use_board';
import { Working, YardFaults } from './working';
import { YardScreen } from './yard';

// A strip of six metres must be read: narrower screens push it along.
const kLeastStrip = 230; // mm
const kAround = 12;

export function Cut({ session, rest }: { session: Session; rest: string[] }) {
  return rest[0] === 'yard' ? <YardScreen session={session} part={rest[1] ?? ''} /> : <Rolls session={session} rest={rest} />;
}

function Rolls({ session, rest }: { session: Session; rest: string[] }) {
  const { board, book } = useBoard(session, Math.max(kLeastStrip, Math.floor(session.room.width) - kAround));
  const [ticks, setTicks] = useState(() => ticksOf(`${session.id}.cut`));
  const cutting = board.plan?.cutting;
  const rolls = cutting?.rolls ?? [];
  const [name = '', mark = ''] = rest;
  const here = rolls.find((roll) => roll.name === name);
  const stale = board.of !== null && (board.of.job !== session.readableText || board.of.yard !== book.text);
  const tick = (keys: string[], done: boolean) => {
    const next = new Set(ticks);
    for (const key of keys) {
      if (done) next.add(key);
      else next.delete(key);
    }
    setTicks(next);
    keepTicks(`${session.id}.cut`, next);
  };
  const at = (...to: string[]) => ({ at: 'job' as const, id: session.id, rung: 'cut' as const, rest: to });
  return (
    <Frame
      session={session}
      rung="cut"
      title={say('rung.cut')}
      stage={{
        view: `roof/${slopeName(session.job.slopes[0]!, 0)}`,
        views: [],
        onView: () => undefined,
        mark: () => '',
        own: (
          <div class={`strips ${stale ? 'stale' : ''}`} tabIndex={0} role="group" aria-label={say('cut.rolls')}>
            {rolls.map((roll) => (
              <RollStrip
                key={roll.name}
                roll={roll}
                inches={isInches(session.job)}
                svg={board.planned?.rolls.get(roll.name) ?? ''}
                here={roll === here}
                cut={roll.cuts.length > 0 && roll.cuts.every((step) => ticks.has(keyOf(roll, step)))}
                address={addressOf(roll === here ? at() : at(roll.name))}
                mark={mark}
                onPiece={(piece) => go(piece === mark && roll === here ? at(roll.name) : at(roll.name, piece))}
              />
            ))}
            {rolls.length === 0 && <p class="nothing">{say(emptyWords(session, board.going !== null, cutting))}</p>}
          </div>
        ),
      }}
    >
      <YardFaults session={session} faults={[...book.faults, ...board.faults]} />
      {here ? (
        <RollPanel session={session} roll={here} mark={mark} ticks={ticks} onTick={tick} />
      ) : (
        <>
          <h2>{say('rung.cut')}</h2>
          <Working board={board} />
          {cutting && <CutSums session={session} cutting={cutting} board={board} book={book} ticks={ticks} />}
          {!cutting && board.plan && <p>{say('cut.none')}</p>}
          <p><a class="button" href={addressOf(at('yard'))}>{say('yard.open')}</a></p>
        </>
      )}
    </Frame>
  );
}

function emptyWords(session: Session, going: boolean, cutting: Cutting | undefined) {
  if (going || !session.seen) return 'cut.laying';
  if (!session.readable?.plan) return 'drawing.none';
  return cutting ? 'cut.none_cut' : 'cut.none';
}

interface StripProps {
  roll: Roll;
  inches: boolean;
  svg: string;
  here: boolean;
  cut: boolean;
  address: string;
  mark: string;
  onPiece: (mark: string) => void;
}

function RollStrip({ roll, inches, svg, here, cut, address, mark, onPiece }: StripProps) {
  const place = useRef<HTMLElement>(null);
  // Chosen in the list, it comes into sight.
  useEffect(() => {
    if (here) place.current?.scrollIntoView({ block: 'nearest' });
  }, [here]);
  const size = { code: roll.code, size: sized(roll.width, roll.length, inches), mass: number(roll.mass, 1) };
  return (
    <section ref={place} class={`roll ${here ? 'here' : ''}`}>
      <h2>
        <a href={address} aria-current={here ? 'true' : undefined}>
          <span class="ring" data-engine>{roll.name}</span>
          <span>
            {say(roll.offcut ? 'cut.size_rack' : 'cut.size', size)}
            {roll.count > 1 && <> {say('cut.alike', { count: roll.count })}</>}
          </span>
          {cut && <b>{say('cut.is_cut')}</b>}
        </a>
      </h2>
      <Strip svg={svg} label={say('cut.strip', { name: roll.name, count: (roll.pieces ?? []).length })} lit={(_, of) => here && of === mark} onPiece={onPiece} />
    </section>
  );
}
