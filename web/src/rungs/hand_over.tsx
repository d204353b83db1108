// A job to another phone: as a file, or as a code on the screen that its camera reads, when it fits one.
import { useState } from 'preact/hooks';
import { packed } from '../job/carried';
import { download, fileName } from '../job/files';
import type { Session } from '../session';
import { say } from '../words/words';
import { qrOf } from './qr';

type Code = { at: 'none' } | { at: 'shown'; dark: boolean[][]; of: string } | { at: 'large' };

const kQuiet = 4;
const pathOf = (dark: boolean[][]): string =>
  dark.flatMap((row, y) => row.flatMap((on, x) => (on ? [`M${x + kQuiet} ${y + kQuiet}h1v1h-1z`] : []))).join('');

// Only an address that another phone can open is worth a code.
const hasAddress = (): boolean => /^https?:$/.test(location.protocol);

export function HandOver({ session }: { session: Session }) {
  const [code, put] = useState<Code>({ at: 'none' });
  const { job } = session;
  const name = fileName(job.title ?? '', '.json');
  const show = async () => {
    const of = session.text;
    const address = `${location.origin}${location.pathname}#/take/${await packed(of)}`;
    const dark = qrOf(new TextEncoder().encode(address));
    put(dark ? { at: 'shown', dark, of } : { at: 'large' });
  };
  const file = () => new File([session.text], name, { type: 'application/json' });
  const canSend = typeof navigator.canShare === 'function' && navigator.canShare({ files: [file()] });
  const size = code.at === 'shown' ? code.dark.length + 2 * kQuiet : 0;
  return (
    <section class="hand-over">
      <h3>{say('hand.title')}</h3>
      <button type="button" class="wide" onClick={() => download(name, 'application/json', session.text)}>{say('papers.job')}</button>
      {canSend && (
        <button type="button" class="wide" onClick={() => void navigator.share({ files: [file()] }).catch(() => undefined)}>{say('hand.send')}</button>
      )}
      {hasAddress() && <button type="button" class="wide" onClick={() => void show()}>{say('hand.code')}</button>}
      <div aria-live="polite">
        {code.at === 'large' && <p>{say('hand.large')}</p>}
        {code.at === 'shown' && code.of !== session.text && <p class="quiet">{say('hand.old')}</p>}
        {code.at === 'shown' && code.of === session.text && (
          <>
            <svg class="code" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={say('hand.alt')} shape-rendering="crispEdges">
              <rect width={size} height={size} class="light" />
              <path d={pathOf(code.dark)} class="dark" />
            </svg>
            <p class="from">{say('hand.about')}</p>
          </>
        )}
      </div>
    </section>
  );
}
