// Papers: what there is to carry up the ladder or to send, each as it will print, one by one or all at once.
import { useEffect, useState } from 'preact/hooks';
import type { PaperFile, PaperSize } from '../engine/engine';
import { download, fileName } from '../job/files';
import { slopeName } from '../job/job_parts';
import { Findings } from '../parts/findings';
import { Frame } from '../parts/frame';
import { addressOf } from '../route';
import type { Session } from '../session';
import { say, sayMany, type WordKey } from '../words/words';
import type { Board } from './board';
import { CompareScreen } from './compare';
import { HandOver } from './hand_over';
import { PriceScreen } from './price';
import { useBoard } from './use_board';
import { Working, YardFaults } from './working';

const kPapers = ['cutting', 'fitting', 'order', 'quote', 'price', 'proof', 'care', 'survey', 'sheets'] as const;
type PaperName = (typeof kPapers)[number];

const kGroups: { title: WordKey; has: (name: string) => boolean }[] = [
  { title: 'papers.pdf', has: (name) => name.endsWith('.pdf') && name !== 'sheets.pdf' },
  { title: 'papers.csv', has: (name) => name.endsWith('.csv') },
  { title: 'papers.drawings', has: (name) => /^(roof|elevation|cutting)-.*\.svg$/.test(name) },
  { title: 'papers.patterns', has: (name) => /^pattern-.*\.svg$/.test(name) },
  { title: 'papers.dxf', has: (name) => name.endsWith('.dxf') },
  { title: 'papers.data', has: (name) => name.endsWith('.json') },
];

let usual: PaperSize = 'A4'; // as it was asked for last

function saveAs(session: Session, file: PaperFile): void {
  const title = session.job.title ?? '';
  const [stem = '', ending = ''] = file.name.split('.');
  download(file.name === 'sheets.pdf' ? fileName(title, '.pdf') : fileName(`${title} ${stem}`, `.${ending}`), file.media, file.bytes);
}

function Size({ size, onSize }: { size: PaperSize; onSize: (size: PaperSize) => void }) {
  return (
    <div class="choice" role="group" aria-label={say('papers.paper')}>
      <span>{say('papers.paper')}</span>
      {(['A4', 'A3'] as const).map((one) => (
        <button key={one} type="button" aria-pressed={size === one} onClick={() => onSize(one)}><span data-engine>{one}</span></button>
      ))}
    </div>
  );
}

// The first drawing, small: what lies behind the button.
function useFace(files: PaperFile[]): string {
  const [url, put] = useState('');
  useEffect(() => {
    const face = files.find((file) => /^roof-.*\.svg$/.test(file.name));
    const made = face ? URL.createObjectURL(new Blob([face.bytes as BlobPart], { type: face.media })) : '';
    put(made);
    return () => URL.revokeObjectURL(made);
  }, [files]);
  return url;
}

const isOld = (session: Session, board: Board, yard: string): boolean =>
  board.papers !== null && (board.papers.of.job !== session.readableText || board.papers.of.yard !== yard);

export function PapersRung({ session, rest }: { session: Session; rest: string[] }) {
  if (rest[0] === 'price') return <PriceScreen session={session} />;
  if (rest[0] === 'compare') return <CompareScreen session={session} rest={rest.slice(1)} />;
  const paper = rest[0] === 'paper' ? kPapers.find((name) => name === rest[1]) : undefined;
  return paper ? <OnePaper key={paper} session={session} paper={paper} /> : <AllPapers session={session} />;
}

const kNoFiles: PaperFile[] = [];

function AllPapers({ session }: { session: Session }) {
  const { board, book } = useBoard(session);
  const [size, setSize] = useState<PaperSize>(usual);
  const { job, readable } = session;
  const at = (...rest: string[]) => addressOf({ at: 'job', id: session.id, rung: 'papers', rest });
  const made = board.papers?.only === '' && !board.going?.papers ? board.papers : null;
  const sheets = made?.files.find((file) => file.name === 'sheets.pdf');
  const face = useFace(made?.files ?? kNoFiles);
  const old = isOld(session, board, book.text);
  const choose = (one: PaperSize) => {
    usual = one;
    setSize(one);
  };
  const form = async (of: string) => {
    const file = await session.engine.form(of, size);
    if (file) download(of === '' ? `${say('papers.blank_form')}.pdf` : fileName(`${job.title ?? ''} form`, '.pdf'), file.media, file.bytes);
  };
  return (
    <Frame
      session={session}
      rung="papers"
      title={say('rung.papers')}
      stage={{ view: `roof/${slopeName(job.slopes[0]!, 0)}`, views: [], onView: () => undefined, mark: () => '' }}
    >
      <h2>{say('rung.papers')}</h2>
      <YardFaults session={session} faults={[...book.faults, ...board.faults]} />
      <p class="hands">
        <a class="button" href={at('price')}>{say('price.open')}</a>
        <a class="button" href={at('compare')}>{say('compare.open')}</a>
      </p>
      <Size size={size} onSize={choose} />
      <ul class="papers">
        {kPapers.map((name) => (
          <li key={name}>
            <a href={at('paper', name)}><b>{say(`paper.${name}` as 'paper.order')}</b> <span>{say(`paper.${name}.for` as 'paper.order')}</span></a>
          </li>
        ))}
      </ul>
      <p><button type="button" class="wide" onClick={() => void form('')}>{say('papers.blank_form')}</button></p>
      <p class="from">{say('papers.about')}</p>
      {board.going?.papers ? (
        <Working board={board} />
      ) : (
        <button type="button" class="next wide" disabled={!readable?.plan || book.faults.length > 0} onClick={() => board.make('', size)}>
          {say(made ? 'papers.again' : 'papers.make')}
        </button>
      )}
      {board.failed && <p role="alert">{say('engine.trouble')}</p>}
      {made && old && <p class="quiet" role="status">{say('papers.old')}</p>}
      {made && (
        <>
          {sheets && (
            <button type="button" class="paper-sheet" onClick={() => saveAs(session, sheets)}>
              <span class="leaf" aria-hidden="true">{face && <img src={face} alt="" />}</span>
              <span>
                <b>{say('papers.sheets', { size: made.size })}</b>
                <small>{say('papers.size', { size: Math.ceil(sheets.bytes.length / 1000) })}</small>
              </span>
            </button>
          )}
          {kGroups.map((group) => <Files key={group.title} session={session} title={group.title} files={made.files.filter((file) => group.has(file.name))} />)}
        </>
      )}
      <HandOver session={session} />
      <section>
        <h3>{say('findings.title')}</h3>
        <Findings session={session} findings={(readable?.plan?.findings ?? []).filter((one) => one.level !== 'note')} />
      </section>
    </Frame>
  );
}

function Files({ session, title, files }: { session: Session; title: WordKey; files: PaperFile[] }) {
  if (files.length === 0) return null;
  return (
    <details class="all">
      <summary>{sayMany(title, files.length)}</summary>
      <ul class="files">
        {files.map((file) => (
          <li key={file.name}><button type="button" onClick={() => saveAs(session, file)} data-engine>{file.name}</button></li>
        ))}
      </ul>
    </details>
  );
}

// The pages as pictures of their own: what they hold can reach nothing of the page.
function Pages({ pages, label }: { pages: string[]; label: (n: number) => string }) {
  const [urls, put] = useState<string[]>([]);
  useEffect(() => {
    const made = pages.map((svg) => URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' })));
    put(made);
    return () => made.forEach((url) => URL.revokeObjectURL(url));
  }, [pages]);
  return (
    <div class="pages" tabIndex={0} role="group" aria-label={sayMany('papers.pages', pages.length)}>
      {urls.map((url, i) => <img key={url} src={url} alt={label(i + 1)} />)}
    </div>
  );
}

const kNone: string[] = [];

function OnePaper({ session, paper }: { session: Session; paper: PaperName }) {
  const { board, book } = useBoard(session);
  const [size, setSize] = useState<PaperSize>(usual);
  const made = board.papers?.only === paper && board.papers.size === size ? board.papers : null;
  const old = made !== null && isOld(session, board, book.text);
  const ready = board.of !== null && board.of.job === session.readableText && board.of.yard === book.text && book.faults.length === 0;
  useEffect(() => {
    if (ready && !made && !board.going && !board.failed && board.faults.length === 0) board.make(paper, size);
  }, [ready, board.going === null, made === null, paper, size]);
  const pages = made?.pages.get(paper) ?? kNone;
  const files = (made?.files ?? []).filter((file) => file.name.endsWith('.pdf') || file.name.endsWith('.csv'));
  const name = say(`paper.${paper}` as 'paper.order');
  return (
    <Frame
      session={session}
      rung="papers"
      title={name}
      stage={{
        view: '',
        views: [],
        onView: () => undefined,
        mark: () => '',
        own: pages.length > 0
          ? <Pages pages={pages} label={(n) => say('papers.page', { name, n, of: pages.length })} />
          : <p class="nothing">{say(made ? 'papers.nothing' : 'papers.making')}</p>,
      }}
    >
      <p><a class="button" href={addressOf({ at: 'job', id: session.id, rung: 'papers', rest: [] })}>{say('papers.all')}</a></p>
      <h2>{name}</h2>
      <p class="from">{say(`paper.${paper}.for` as 'paper.order')}</p>
      <YardFaults session={session} faults={[...book.faults, ...board.faults]} />
      <Size
        size={size}
        onSize={(one) => {
          usual = one;
          setSize(one);
        }}
      />
      <Working board={board} />
      {old && (
        <p class="wrong-here" role="status">
          {say('papers.old')} <button type="button" onClick={() => board.make(paper, size)}>{say('papers.again')}</button>
        </p>
      )}
      {made && pages.length === 0 && <p>{say('papers.nothing')}</p>}
      {files.length > 0 && (
        <ul class="files">
          {files.map((file) => (
            <li key={file.name}>
              <button type="button" onClick={() => saveAs(session, file)}>
                <b data-engine>{file.name}</b> <span>{say('papers.size', { size: Math.ceil(file.bytes.length / 1000) })}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </Frame>
  );
}
