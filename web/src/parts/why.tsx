// Every number can be pressed: a sentence, the sum, where each term comes from, what others print, and a way to choose.
import { useState } from 'preact/hooks';
import type { Explained, Rule } from '../engine/engine';
import { withRule } from '../job/changes';
import type { Session } from '../session';
import { say } from '../words/words';

const symbols = (formula: string): string => formula.replace(/\*/g, '×').replace(/ - /g, ' − ');

export function RuleChoice({ session, rule }: { session: Session; rule: Rule }) {
  const put = (value: number | string | undefined) => session.change(withRule(session.job, rule.rule, value, rule.unit));
  const [own, setOwn] = useState('');
  return (
    <div class="rule">
      <p class="rule-name"><b data-engine>{rule.label ?? rule.note}</b>{' '}<span data-engine>{rule.shown}</span></p>
      {rule.note && <p data-engine>{rule.note}</p>}
      <p class="source" data-engine>{rule.standing === rule.source ? rule.standing : `${rule.standing}: ${rule.source}`}</p>
      {rule.least && <p class="source">{say('rule.least')} <span data-engine>{rule.least}: {rule.bound_source}</span></p>}
      {rule.most && <p class="source">{say('rule.most')} <span data-engine>{rule.most}: {rule.bound_source}</span></p>}
      <div class="options tall" role="group" aria-label={say('rule.choose')}>
        <button type="button" aria-pressed={!rule.overridden} onClick={() => put(undefined)}>
          <b data-engine>{rule.pack_shown}</b> {say('rule.usual')}
        </button>
        {rule.others.map((other) => (
          <button
            key={`${other.value} ${other.source}`}
            type="button"
            aria-pressed={rule.overridden && rule.value === other.value}
            onClick={() => put(other.value)}
          >
            <b data-engine>{other.shown}</b> <span data-engine>{other.source}</span>
          </button>
        ))}
      </div>
      <form
        class="own"
        onSubmit={(event) => {
          event.preventDefault();
          const text = own.trim();
          if (text === '') return;
          const number = Number(text.replace(',', '.'));
          put(Number.isFinite(number) ? number : text);
        }}
      >
        <label>
          {say('rule.own')} <span data-engine>{rule.unit}</span>
          <input type="text" inputMode="decimal" autocomplete="off" value={own} onInput={(event) => setOwn(event.currentTarget.value)} />
        </label>
        <button type="submit">{say('rule.set')}</button>
      </form>
    </div>
  );
}

function Opened({ session, figure }: { session: Session; figure: Explained }) {
  return (
    <div class="opened">
      <p class="sum" data-engine>
        {symbols(figure.formula)}
        {figure.sum !== figure.formula && <><br />= {symbols(figure.sum)}</>}
        <br />= <b>{figure.shown}</b>
      </p>
      <dl data-engine>
        {figure.terms.map((term) => (
          <div key={term.symbol}>
            <dt>{term.symbol}</dt>
            <dd><b>{term.shown}</b> {term.from}</dd>
          </div>
        ))}
      </dl>
      {figure.source !== figure.rule?.source && (
        <p class="source" data-engine>{figure.source && figure.source !== figure.standing ? `${figure.standing}: ${figure.source}` : figure.standing}</p>
      )}
      {figure.rule && <RuleChoice session={session} rule={figure.rule} />}
    </div>
  );
}

export function Whys({ session, figures }: { session: Session; figures: Explained[] }) {
  const [open, setOpen] = useState('');
  return (
    <ul class="whys">
      {figures.map((figure) => (
        <li key={figure.name}>
          <button
            type="button"
            class="figure"
            aria-expanded={open === figure.name}
            onClick={() => setOpen(open === figure.name ? '' : figure.name)}
          >
            <b class="value" data-engine>{figure.shown}</b>
            <span data-engine>{figure.sentence}</span>
          </button>
          {open === figure.name && <Opened session={session} figure={figure} />}
        </li>
      ))}
    </ul>
  );
}
