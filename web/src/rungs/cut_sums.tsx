// What to buy, what it weighs and costs, what comes back, and how far from the best it can be.
import { isInches } from '../job/job_parts';
import { addressOf } from '../route';
import type { Session } from '../session';
import { say, type WordKey } from '../words/words';
import type { Board } from './board';
import { boughtOf, keyOf, type Cutting } from './cut_steps';
import { money, number, percent, sized } from './shown';
import type { Yard, YardBook } from './yard_book';

const kg = (value: number): string => say('cut.kg', { n: number(value, 1) });

function Buy({ session, cutting }: { session: Session; cutting: Cutting }) {
  return (
    <ul class="buy">
      {boughtOf(cutting.rolls ?? []).map(({ roll, count, names }) => (
        <li key={names[0]}>
          <b class="times">{say('lead.times', { count })}</b>
          <div>
            <p>{say('cut.size', { code: roll.code, size: sized(roll.width, roll.length, isInches(session.job)), mass: number(roll.mass, 1) })}</p>
            <p class="names">
              {names.map((name) => (
                <a key={name} class="button" href={addressOf({ at: 'job', id: session.id, rung: 'cut', rest: [name] })} data-engine>{name}</a>
              ))}
            </p>
          </div>
          <b class="amount">{roll.offcut ? say('cut.from_rack') : money(roll.price * count, cutting.currency)}</b>
        </li>
      ))}
    </ul>
  );
}

// In the words of what is proven: a bound on any cutting, one on cutting in strips, and which of them is met.
function Proven({ cutting }: { cutting: Cutting }) {
  const bounds = cutting.bounds ?? [];
  const sum = (of: (one: (typeof bounds)[number]) => number) => bounds.reduce((all, one) => all + of(one), 0);
  const any = sum((one) => one.any);
  const straight = sum((one) => one.straight);
  const strips = sum((one) => one.strips);
  const shown = (value: number) => money(value, cutting.currency);
  const best = bounds.length > 0 && bounds.every((one) => one.best_strips);
  return (
    <ul class="proven">
      <li>{best ? say('cut.best_strips') : say('cut.bound_strips', { bound: shown(strips), gap: percent(cutting.gap?.strips ?? 0) })}</li>
      {straight > any + 0.5 && <li>{say('cut.bound_straight', { bound: shown(straight), gap: percent(cutting.gap?.straight ?? 0) })}</li>}
      <li>{say('cut.bound_any', { bound: shown(any), gap: percent(cutting.gap?.any ?? 0) })}</li>
    </ul>
  );
}

function Hand({ cutting }: { cutting: Cutting }) {
  const { hand } = cutting;
  if (!hand) return null;
  const bought = kg(hand.bought_kg);
  const saved = hand.cost - (cutting.cost ?? 0);
  const by = money(Math.abs(saved), cutting.currency);
  return <p>{say(saved > 0.5 ? 'cut.hand_dearer' : saved < -0.5 ? 'cut.hand_cheaper' : 'cut.hand_same', { bought, by })}</p>;
}

interface Props {
  session: Session;
  cutting: Cutting;
  board: Board;
  book: YardBook;
  ticks: Set<string>;
}

export function CutSums({ session, cutting, board, book, ticks }: Props) {
  const { currency } = cutting;
  const shown = (value: number | undefined) => money(value ?? 0, currency);
  const rolls = cutting.rolls ?? [];
  const steps = rolls.flatMap((roll) => roll.cuts.map((step) => keyOf(roll, step)));
  const done = steps.filter((key) => ticks.has(key)).length;
  const rows: [WordKey, string][] = [
    ['cut.bought', `${kg(cutting.bought_kg ?? 0)} · ${shown(cutting.price)}`],
    ...((cutting.from_rack_kg ?? 0) > 0 ? [['cut.rack', kg(cutting.from_rack_kg ?? 0)] as [WordKey, string]] : []),
    ...((cutting.order ?? 0) > (cutting.price ?? 0) ? [['cut.order', shown(cutting.order)] as [WordKey, string]] : []),
    ['cut.used', kg(cutting.used_kg ?? 0)],
    ['cut.kept', `${kg(cutting.kept_kg ?? 0)} · ${shown(cutting.kept_worth)}`],
    ['cut.scrap', `${kg(cutting.scrap_kg ?? 0)} · ${shown(cutting.scrap_worth)}`],
    ['cut.cost', shown(cutting.cost)],
  ];
  return (
    <>
      {(cutting.invented_yard || book.invented) && <p class="quiet">{say('yard.invented')}</p>}
      <Buy session={session} cutting={cutting} />
      <p>{say('cut.done', { done, of: steps.length })}</p>
      <dl class="sums">
        {rows.map(([key, value]) => (
          <div key={key}><dt>{say(key)}</dt><dd>{value}</dd></div>
        ))}
      </dl>
      <section>
        <h3>{say('cut.how_good')}</h3>
        <Proven cutting={cutting} />
        <Hand cutting={cutting} />
        {board.canTryHarder && !board.going && (
          <button type="button" class="wide" onClick={() => board.tryHarder()}>{say('cut.harder')}</button>
        )}
        {!board.canTryHarder && !board.going && <p class="quiet">{say('cut.hardest')}</p>}
      </section>
      {(cutting.refused ?? []).length > 0 && (
        <section>
          <h3>{say('cut.refused')}</h3>
          <ul class="proven">
            {(cutting.refused ?? []).map((one) => (
              <li key={`${one.mark} ${one.why}`}>
                <span data-engine>{one.mark}</span> {say('lead.times', { count: one.count })} {say(`cut.refused.${one.why}`)}
              </li>
            ))}
          </ul>
        </section>
      )}
      {(cutting.kept_kg ?? 0) > 0 && board.planned?.yardAfter && (
        <section>
          <h3>{say('cut.after')}</h3>
          <p class="from">{say('cut.after.about')}</p>
          <button type="button" class="wide" onClick={() => book.put(JSON.parse(board.planned?.yardAfter ?? '{}') as Yard)}>
            {say('cut.to_rack')}
          </button>
        </section>
      )}
    </>
  );
}
