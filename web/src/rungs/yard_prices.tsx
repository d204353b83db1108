// What everything but lead costs, what an hour of work costs, and what is added.
import { valueAt, withValue } from '../job/path';
import { say } from '../words/words';
import { Wrong, YardField } from './yard_fields';
import type { Yard, YardBook } from './yard_book';

type YardPrice = NonNullable<Yard['prices']>[number];
type Per = YardPrice['per'];

// What a yard can price, and per what: the engine's own list.
export const kItems: { item: string; per: Per[] }[] = [
  { item: 'covering.unit', per: ['piece'] },
  { item: 'covering.unit_and_half', per: ['piece'] },
  { item: 'covering.eaves_unit', per: ['piece'] },
  { item: 'battens.length', per: ['m', 'length'] },
  { item: 'timber.tilting_fillet', per: ['m'] },
  { item: 'timber.boards', per: ['m2'] },
  { item: 'timber.underlay_upturn', per: ['m'] },
  { item: 'fixings.unit_nails', per: ['kg'] },
  { item: 'fixings.batten_nails', per: ['kg'] },
  { item: 'fixings.lead_nails', per: ['piece'] },
  { item: 'fixings.clips', per: ['piece'] },
  { item: 'finishing.sealant', per: ['piece'] },
  { item: 'finishing.oil', per: ['l'] },
  { item: 'access.scaffold', per: ['week'] },
];

function Price({ book, item, per }: { book: YardBook; item: string; per: Per[] }) {
  const yard = book.yard!;
  const prices = yard.prices ?? [];
  const at = prices.findIndex((one) => one.item === item);
  const now = prices[at]?.per ?? per[0]!;
  const currency = yard.currency ?? 'GBP';
  // A price that is taken away is missing, never nought.
  const put = (value: unknown) => {
    const rest = prices.filter((_, i) => i !== at);
    const next = value === undefined ? rest : at < 0 ? [...prices, { item, price: value, per: now } as YardPrice] : prices.map((one, i) => (i === at ? ({ ...one, price: value } as YardPrice) : one));
    book.put({ ...yard, prices: next }, `price ${item}`);
  };
  return (
    <li>
      <YardField
        book={book}
        path={at < 0 ? `prices[${prices.length}].price` : `prices[${at}].price`}
        label={say(`yard.item.${item}` as 'yard.item.covering.unit')}
        unit={say('yard.per', { currency, per: say(`yard.per.${now}` as 'yard.per.piece') })}
        kind="money"
        onValue={put}
      />
      {at < 0 && <p class="state open">{say('yard.missing')}</p>}
      {per.length > 1 && at >= 0 && (
        <div class="choice" role="group" aria-label={say('yard.priced')}>
          {per.map((one) => (
            <button key={one} type="button" aria-pressed={now === one} onClick={() => book.put(withValue(yard, `prices[${at}].per`, one))}>
              {say(`yard.per.${one}` as 'yard.per.piece')}
            </button>
          ))}
        </div>
      )}
      <Wrong faults={at < 0 ? [] : book.faults.filter((fault) => [`$.prices[${at}].item`, `$.prices[${at}].per`, `$.prices[${at}].currency`].includes(fault.path))} id={`price-${item}`} />
    </li>
  );
}

export function YardPrices({ book }: { book: YardBook }) {
  if (!book.yard) return null;
  // What a file of somebody else's prices by a name that there is not.
  const strange = (book.yard.prices ?? []).filter((one) => !kItems.some(({ item }) => item === one.item));
  return (
    <section>
      <h3>{say('yard.prices')}</h3>
      <ul class="prices">
        {kItems.map(({ item, per }) => <Price key={item} book={book} item={item} per={per} />)}
        {strange.map((one) => (
          <li key={one.item}>
            <p><b data-own>{one.item}</b> {say('yard.strange')}</p>
            <button type="button" onClick={() => book.put({ ...book.yard!, prices: (book.yard!.prices ?? []).filter((other) => other !== one) })}>{say('yard.remove')}</button>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function YardWork({ book }: { book: YardBook }) {
  const currency = book.yard?.currency ?? 'GBP';
  return (
    <section>
      <h3>{say('yard.labour')}</h3>
      <p class="from">{say('yard.labour.about')}</p>
      <div class="fields">
        <YardField book={book} path="labour.per_hour" label={say('yard.per_hour')} unit={currency} kind="money" />
        <YardField book={book} path="labour.per_day" label={say('yard.per_day')} unit={currency} kind="money" />
      </div>
      <Wrong faults={book.faults.filter((fault) => fault.path === '$.labour')} id="yard-labour" />
    </section>
  );
}

const linesOf = (book: YardBook, path: string): string[] => (valueAt(book.yard, path) as string[] | undefined) ?? [];

export function YardTerms({ book }: { book: YardBook }) {
  const { yard } = book;
  if (!yard) return null;
  const currency = yard.currency ?? 'GBP';
  const provisional = yard.terms?.provisional ?? [];
  const lines = linesOf(book, 'terms.not_included');
  return (
    <section>
      <h3>{say('yard.terms')}</h3>
      <div class="fields">
        <YardField book={book} path="terms.overheads" label={say('yard.overheads')} unit="%" kind="number" />
        <YardField book={book} path="terms.margin" label={say('yard.margin')} unit="%" kind="number" />
        <YardField book={book} path="terms.vat" label={say('yard.vat')} unit="%" kind="number" />
        <YardField book={book} path="terms.valid_days" label={say('yard.valid_days')} kind="number" />
      </div>
      <h4>{say('yard.not_included')}</h4>
      {lines.map((_, i) => (
        <YardField key={i} book={book} path={`terms.not_included[${i}]`} label={say('yard.line', { n: i + 1 })} kind="text" />
      ))}
      <button type="button" onClick={() => book.put(withValue(yard, `terms.not_included[${lines.length}]`, say('yard.new_line')))}>{say('yard.add_line')}</button>
      <h4>{say('yard.provisional')}</h4>
      {provisional.map((_, i) => (
        <div key={i} class="fields">
          <YardField book={book} path={`terms.provisional[${i}].what`} label={say('yard.what')} kind="text" needed />
          <YardField book={book} path={`terms.provisional[${i}].price`} label={say('yard.price')} unit={currency} kind="money" needed />
          <button type="button" onClick={() => book.put(withValue(yard, `terms.provisional[${i}]`, undefined))}>{say('yard.remove')}</button>
        </div>
      ))}
      <button type="button" onClick={() => book.put(withValue(yard, `terms.provisional[${provisional.length}]`, { what: say('yard.new_line'), price: 1000 }))}>
        {say('yard.add_provisional')}
      </button>
    </section>
  );
}

export function YardCutting({ book }: { book: YardBook }) {
  const currency = book.yard?.currency ?? 'GBP';
  return (
    <section>
      <h3>{say('yard.cutting')}</h3>
      <div class="fields">
        <YardField book={book} path="scrap_per_kg" label={say('yard.scrap')} unit={currency} kind="money" />
        <YardField book={book} path="minimum_order" label={say('yard.minimum')} unit={currency} kind="money" />
        <YardField book={book} path="keep_from[0]" label={say('yard.keep_length')} unit="mm" kind="number" />
        <YardField book={book} path="keep_from[1]" label={say('yard.keep_width')} unit="mm" kind="number" />
        <YardField book={book} path="keep_percent" label={say('yard.keep_percent')} unit="%" kind="number" />
        <YardField book={book} path="kerf" label={say('yard.kerf')} unit="mm" kind="number" />
      </div>
    </section>
  );
}
