// The price as a sum that can be argued with: every line with its quantity, its price and why, then what is added.
import { useState } from 'preact/hooks';
import type { Plan } from '../generated/plan';
import { slopeName } from '../job/job_parts';
import { Frame } from '../parts/frame';
import { Whys } from '../parts/why';
import { addressOf } from '../route';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say, sayMany, sayIfKnown } from '../words/words';
import { Offer } from './offer';
import { money, number } from './shown';
import { useBoard } from './use_board';
import { Working, YardFaults } from './working';

type Price = NonNullable<Plan['price']>;
type Line = Price['lines'][number];

const kGroups = ['covering', 'battens', 'timber', 'fixings', 'lead', 'finishing', 'labour', 'access'];

const perOf = (per: string): string => sayIfKnown(`price.unit.${per}`, per);
const sumOf = (line: Line, currency: string): string =>
  line.price === undefined
    ? say('price.quantity', { n: number(line.quantity, 2), unit: perOf(line.per) })
    : say('price.product', { n: number(line.quantity, 2), unit: perOf(line.per), price: money(line.price, currency) });

// Why so many: the figure, its sum and its rule, which a person may change.
function Why({ session, line }: { session: Session; line: Line }) {
  const why = useAnswer(`${session.readableText}|${line.item}`, () =>
    session.engine.why(session.readableText, line.item, { width: 96, height: 70 }));
  return <Whys session={session} figures={why?.figures ?? []} />;
}

function PriceLine({ session, line, currency, open, onOpen }: { session: Session; line: Line; currency: string; open: boolean; onOpen: () => void }) {
  const cut = line.group === 'lead';
  return (
    <li>
      <button type="button" class="line" aria-expanded={open} onClick={onOpen}>
        <span class="what" data-engine>{line.text}</span>
        <span class="sum">{sumOf(line, currency)}</span>
        <b class="amount">{line.amount === undefined ? say('price.missing') : money(line.amount, currency)}</b>
      </button>
      {open && (
        <div class="opened">
          {line.slope && <p class="quiet" data-own>{line.slope}</p>}
          {cut ? (
            <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'cut', rest: [] })}>{say('price.see_cut')}</a></p>
          ) : (
            <Why session={session} line={line} />
          )}
          <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'cut', rest: ['yard', 'price'] })}>{say('price.change')}</a></p>
        </div>
      )}
    </li>
  );
}

function Group({ session, name, price, open, onOpen }: { session: Session; name: string; price: Price; open: string; onOpen: (key: string) => void }) {
  const lines = price.lines.filter((line) => line.group === name);
  if (lines.length === 0) return null;
  const total = lines.reduce((sum, line) => sum + (line.amount ?? 0), 0);
  return (
    <section class="price-group">
      <h3><span>{say(`price.group.${name}` as 'price.group.lead')}</span> <b class="amount">{money(total, price.currency)}</b></h3>
      <ul class="lines">
        {lines.map((line, i) => {
          const key = `${name}/${i}`;
          return <PriceLine key={key} session={session} line={line} currency={price.currency} open={open === key} onOpen={() => onOpen(open === key ? '' : key)} />;
        })}
      </ul>
    </section>
  );
}

function Sums({ price }: { price: Price }) {
  return (
    <dl class="sums whole">
      {price.sums.map((sum) => {
        const share = sum.figure.terms.find((term) => term.symbol === 'p');
        return (
          <div key={sum.name} class={sum.name}>
            <dt>
              {say(`price.sum.${sum.name}` as 'price.sum.total')}
              {share && <small> {number(share.value, 2)} %</small>}
            </dt>
            <dd>{money(sum.amount, price.currency)}</dd>
          </div>
        );
      })}
    </dl>
  );
}

export function PriceScreen({ session }: { session: Session }) {
  const { board, book } = useBoard(session);
  const [open, setOpen] = useState('');
  const price = board.plan?.price;
  return (
    <Frame
      session={session}
      rung="papers"
      title={say('price.title')}
      stage={{ view: `roof/${slopeName(session.job.slopes[0]!, 0)}`, views: [], onView: () => undefined, look: 'no-lengths', mark: () => '' }}
    >
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'papers', rest: [] })}>{say('papers.all')}</a></p>
      <h2 class="at-total"><span>{say('price.title')}</span> {price && <b>{money(price.sums.at(-1)?.amount ?? 0, price.currency)}</b>}</h2>
      <YardFaults session={session} faults={[...book.faults, ...board.faults]} />
      <Working board={board} />
      {price && (
        <>
          {price.invented && <p class="insisted">{say('yard.invented')}</p>}
          {price.missing > 0 && <p class="wrong-here">{sayMany('price.some_missing', price.missing)}</p>}
          <Sums price={price} />
          {price.vat === undefined && <p class="quiet">{say('price.no_vat')}</p>}
          {kGroups.map((name) => <Group key={name} session={session} name={name} price={price} open={open} onOpen={setOpen} />)}
          {(price.provisional ?? []).length > 0 && (
            <section>
              <h3>{say('yard.provisional')}</h3>
              <dl class="sums">
                {(price.provisional ?? []).map((one) => <div key={one.what}><dt data-own>{one.what}</dt><dd>{money(one.price, price.currency)}</dd></div>)}
              </dl>
            </section>
          )}
          {price.not_included.length > 0 && (
            <section>
              <h3>{say('yard.not_included')}</h3>
              <ul class="proven" data-own>{price.not_included.map((one) => <li key={one}>{one}</li>)}</ul>
            </section>
          )}
        </>
      )}
      {board.plan && !price && <p>{say('price.none')}</p>}
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'cut', rest: ['yard', 'price'] })}>{say('yard.open')}</a></p>
      <Offer session={session} yard={book.faults.length === 0 ? book.text : ''} />
    </Frame>
  );
}
