// What can be bought, by code, and what lies in the rack.
import { useState } from 'preact/hooks';
import { withValue } from '../job/path';
import { say, sayMany } from '../words/words';
import { money, tape } from './shown';
import { isUnder, Wrong, YardField } from './yard_fields';
import type { Yard, YardBook } from './yard_book';

type YardRoll = Yard['rolls'][number];

const kCodes = [3, 4, 5, 6, 7, 8];
const shownLength = (value: unknown): string => (typeof value === 'number' ? tape(value, false) : String(value ?? ''));
const sizeOf = (one: { width?: unknown; length?: unknown }): string => `${shownLength(one.width)} × ${shownLength(one.length)}`;

// Of rolls that are sold by the kilogram at one price, that price.
function priceOf(rolls: YardRoll[]): number | undefined {
  const prices = new Set(rolls.filter((roll) => roll.price === undefined).map((roll) => roll.price_per_kg));
  return prices.size === 1 ? [...prices][0] : undefined;
}

function RollFields({ book, at }: { book: YardBook; at: number }) {
  const path = `rolls[${at}]`;
  const roll = book.yard?.rolls[at];
  if (!roll) return null;
  const whole = roll.price !== undefined;
  const put = (key: 'price' | 'price_per_kg') => {
    if (!book.yard) return;
    const { price, price_per_kg: perKg, ...rest } = roll;
    const next = { ...rest, [key]: (key === 'price' ? price : perKg) ?? '' } as unknown as YardRoll;
    book.put(withValue(book.yard, path, next));
  };
  // What is wrong with the roll as a whole, not with one of its fields.
  const faults = book.faults.filter((fault) => fault.path === `$.${path}`);
  return (
    <div class="opened">
      <Wrong faults={faults} id={`roll-${at}-wrong`} />
      <div class="fields">
        <YardField book={book} path={`${path}.width`} label={say('yard.width')} unit="mm" kind="number" needed />
        <YardField book={book} path={`${path}.length`} label={say('yard.length')} unit="mm" kind="number" needed />
        <YardField book={book} path={`${path}.in_stock`} label={say('yard.in_stock')} kind="number" />
        <YardField
          key={whole ? 'price' : 'kg'}
          book={book}
          path={whole ? `${path}.price` : `${path}.price_per_kg`}
          label={say(whole ? 'yard.whole_roll' : 'yard.per_kg')}
          unit={book.yard?.currency ?? ''}
          kind="money"
        />
      </div>
      <div class="choice" role="group" aria-label={say('yard.priced')}>
        <button type="button" aria-pressed={!whole} onClick={() => put('price_per_kg')}>{say('yard.by_kg')}</button>
        <button type="button" aria-pressed={whole} onClick={() => put('price')}>{say('yard.by_roll')}</button>
      </div>
      <button type="button" onClick={() => book.yard && book.put(withValue(book.yard, path, undefined))}>{say('yard.remove')}</button>
    </div>
  );
}

function Code({ book, code, indices }: { book: YardBook; code: number; indices: number[] }) {
  const [open, setOpen] = useState(-1);
  const [unfolded, unfold] = useState(false);
  const { yard } = book;
  if (!yard) return null;
  const rolls = indices.map((i) => yard.rolls[i]!);
  const price = priceOf(rolls);
  const wrong = book.faults.filter((fault) => indices.some((i) => isUnder(fault, `rolls[${i}]`))).length;
  const first = indices.find((i) => yard.rolls[i]?.price === undefined);
  const putAll = (value: unknown) =>
    book.put(
      { ...yard, rolls: yard.rolls.map((roll, i) => (indices.includes(i) && roll.price === undefined ? ({ ...roll, price_per_kg: value } as YardRoll) : roll)) },
      `code ${code}`,
    );
  const add = () => {
    const roll: YardRoll = { code, width: 300, length: 6000, ...(price === undefined ? {} : { price_per_kg: price }) };
    book.put({ ...yard, rolls: [...yard.rolls, roll] });
    setOpen(yard.rolls.length);
  };
  return (
    <details class="all" open={unfolded || wrong > 0} onToggle={(event) => unfold(event.currentTarget.open)}>
      <summary>
        <span>{sayMany('yard.code', rolls.length, { code })}</span>
        <b>{wrong > 0 ? say('level.wrong') : price !== undefined ? say('yard.a_kg', { price: money(price, yard.currency ?? 'GBP') }) : ''}</b>
      </summary>
      {first !== undefined && (
        <YardField book={book} path={`rolls[${first}].price_per_kg`} label={say('yard.all_kg', { code })} unit={yard.currency ?? 'GBP'} kind="money" onValue={putAll} />
      )}
      <div class="sizes">
        {indices.map((i) => (
          <button
            key={i}
            type="button"
            aria-expanded={open === i}
            class={book.faults.some((fault) => isUnder(fault, `rolls[${i}]`)) ? 'is-wrong' : ''}
            onClick={() => setOpen(open === i ? -1 : i)}
          >
            <span data-engine>{sizeOf(yard.rolls[i]!)}</span>
          </button>
        ))}
        <button type="button" onClick={add}>{say('yard.add_roll')}</button>
      </div>
      {indices.includes(open) && <RollFields key={open} book={book} at={open} />}
      {/* What is wrong is never out of sight. */}
      {indices.filter((i) => i !== open && book.faults.some((fault) => isUnder(fault, `rolls[${i}]`))).map((i) => <RollFields key={i} book={book} at={i} />)}
    </details>
  );
}

export function YardRolls({ book }: { book: YardBook }) {
  const { yard } = book;
  if (!yard) return null;
  const of = (code: number) => yard.rolls.flatMap((roll, i) => (roll.code === code ? [i] : []));
  const missing = kCodes.filter((code) => of(code).length === 0);
  return (
    <section>
      <h3>{say('yard.rolls')}</h3>
      {kCodes.filter((code) => of(code).length > 0).map((code) => <Code key={code} book={book} code={code} indices={of(code)} />)}
      {missing.length > 0 && (
        <div class="choice" role="group" aria-label={say('yard.more_codes')}>
          <span>{say('yard.more_codes')}</span>
          {missing.map((code) => (
            <button key={code} type="button" onClick={() => book.put({ ...yard, rolls: [...yard.rolls, { code, width: 300, length: 6000 } as YardRoll] })}>
              {code}
            </button>
          ))}
        </div>
      )}
    </section>
  );
}

export function YardRack({ book }: { book: YardBook }) {
  const { yard } = book;
  if (!yard) return null;
  const offcuts = yard.offcuts ?? [];
  return (
    <section>
      <h3>{say('yard.rack')}</h3>
      <p class="from">{say('yard.rack.about')}</p>
      <ul class="rack">
        {offcuts.map((_, i) => {
          const path = `offcuts[${i}]`;
          return (
            <li key={i}>
              <Wrong faults={book.faults.filter((fault) => fault.path === `$.${path}`)} id={`offcut-${i}-wrong`} />
              <div class="fields">
                <YardField book={book} path={`${path}.code`} label={say('yard.code_is')} kind="number" needed />
                <YardField book={book} path={`${path}.width`} label={say('yard.width')} unit="mm" kind="number" needed />
                <YardField book={book} path={`${path}.length`} label={say('yard.length')} unit="mm" kind="number" needed />
                <YardField book={book} path={`${path}.count`} label={say('yard.how_many')} kind="number" />
              </div>
              <button type="button" onClick={() => book.put(withValue(yard, path, undefined))}>{say('yard.remove')}</button>
            </li>
          );
        })}
      </ul>
      <button type="button" class="wide" onClick={() => book.put({ ...yard, offcuts: [...offcuts, { code: 4, width: 300, length: 1000 }] })}>
        {say('yard.add_offcut')}
      </button>
    </section>
  );
}
