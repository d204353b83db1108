// Fields of the yard: what is typed is kept as it is typed, and what is wrong with it stands under it.
import { useState } from 'preact/hooks';
import type { Fault } from '../engine/engine';
import { tellFault } from '../job/faults';
import { valueAt, withValue } from '../job/path';
import { Judgement } from '../parts/judgement';
import { say } from '../words/words';
import { moneyOf, moneyText } from './shown';
import type { YardBook } from './yard_book';

export const isUnder = (fault: Fault, path: string): boolean => {
  const at = fault.path.replace(/^\$\.?/, '');
  return at === path || at.startsWith(`${path}[`) || at.startsWith(`${path}.`);
};

// `typed`: what stands in the field, where there is one.
export function Wrong({ faults, id, typed = '-' }: { faults: Fault[]; id: string; typed?: string }) {
  return (
    <div id={id} aria-live="polite">
      {faults.map((fault) => {
        const told = tellFault(fault, typed);
        return (
          <p key={fault.path + fault.code} class="wrong-here">
            <Judgement level="wrong" /> {told.text} <span data-engine>{told.own}</span>
          </p>
        );
      })}
    </div>
  );
}

interface Props {
  book: YardBook;
  path: string; // "rolls[3].width"
  label: string;
  unit?: string;
  kind: 'money' | 'number' | 'text';
  needed?: boolean; // stays in the file when it is emptied, so that it is told as wrong
  onValue?: (value: unknown) => void; // where it stands in several places
}

const shownOf = (value: unknown, kind: Props['kind']): string =>
  kind === 'money' ? moneyText(value) : value === undefined ? '' : String(value);

function valueOf(text: string, kind: Props['kind'], needed: boolean): unknown {
  const trimmed = text.trim();
  if (trimmed === '') return needed ? '' : undefined;
  if (kind === 'text') return text;
  if (kind === 'money') return moneyOf(text) ?? trimmed;
  return /^-?\d+([.,]\d+)?$/.test(trimmed) ? Number(trimmed.replace(',', '.')) : trimmed;
}

export function YardField({ book, path, label, unit, kind, needed, onValue }: Props) {
  const [typed, setTyped] = useState<string | null>(null);
  const value = valueAt(book.yard, path);
  const faults = book.faults.filter((fault) => isUnder(fault, path));
  const id = `yard-${path.replace(/\W+/g, '-')}`;
  const put = (text: string) => {
    setTyped(text);
    const next = valueOf(text, kind, needed ?? false);
    if (onValue) onValue(next);
    else if (book.yard) book.put(withValue(book.yard, path, next), path);
  };
  return (
    <div class={`yard-field ${faults.length > 0 ? 'is-wrong' : ''}`}>
      <label for={id}>{label}</label>
      <div class="with-unit">
        <input
          id={id}
          type="text"
          inputMode={kind === 'text' ? 'text' : 'decimal'}
          autocomplete="off"
          value={typed ?? shownOf(value, kind)}
          aria-invalid={faults.length > 0}
          aria-describedby={`${id}-wrong`}
          onInput={(event) => put(event.currentTarget.value)}
          onBlur={() => setTyped(null)}
        />
        {unit && <span class="unit" data-engine>{unit}</span>}
      </div>
      {faults.length > 0 && kind === 'money' ? (
        <p class="wrong-here" id={`${id}-wrong`} aria-live="polite"><Judgement level="wrong" /> {say('yard.money_wrong')}</p>
      ) : (
        <Wrong faults={faults} id={`${id}-wrong`} typed={typed ?? shownOf(value, kind)} />
      )}
    </div>
  );
}
