// The practice values that a job rests on: each with its source, its standing, what others print, and a way to choose.
import { useState } from 'preact/hooks';
import type { Session } from '../session';
import { useAnswer } from '../use';
import { say } from '../words/words';
import { Frame, type View } from './frame';
import { RuleChoice } from './why';

export function Practice({ session, open, views }: { session: Session; open: string; views: View[] }) {
  const [words, setWords] = useState(open);
  const rules = useAnswer(session.readableText, () => session.engine.rules(session.readableText)) ?? [];
  const wanted = words.toLowerCase();
  const shown = rules.filter((one) => `${one.rule} ${one.label ?? ''} ${one.note}`.toLowerCase().includes(wanted));
  return (
    <Frame
      session={session}
      rung="layout"
      title={say('practice.title')}
      stage={{ view: views[0]?.name ?? '', views: [], onView: () => undefined, look: 'no-marks', mark: () => '' }}
    >
      <p><a class="button" href={`#/job/${encodeURIComponent(session.id)}/layout`}>{say('practice.close')}</a></p>
      <h2>{say('practice.title')}</h2>
      <p class="from">{say('practice.about')}</p>
      <label class="search">
        {say('practice.search')}
        <input type="search" value={words} onInput={(event) => setWords(event.currentTarget.value)} />
      </label>
      <ul class="rules">
        {shown.map((rule) => (
          <li key={rule.rule}>
            <details open={rule.rule === open}>
              <summary>
                <span data-engine>{rule.label ?? rule.note}</span> <b data-engine>{rule.shown}</b>
                {rule.overridden && <em>{say('practice.own')}</em>}
              </summary>
              <RuleChoice session={session} rule={rule} />
            </details>
          </li>
        ))}
      </ul>
    </Frame>
  );
}
