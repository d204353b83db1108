// Papers: what there is to carry up the ladder or send, made when asked for.
import { useEffect, useRef, useState } from 'preact/hooks';
import type { PaperFile } from '../engine/engine';
import { download, fileName } from '../job/files';
import { slopeName } from '../job/job_parts';
import { Findings } from '../parts/findings';
import { Frame } from '../parts/frame';
import type { Session } from '../session';
import { say, sayMany, type WordKey } from '../words/words';

type State = { at: 'idle' } | { at: 'making' } | { at: 'made'; files: PaperFile[]; text: string } | { at: 'failed' };

const kGroups: { title: WordKey; has: (name: string) => boolean }[] = [
  { title: 'papers.single', has: (name) => name.endsWith('.pdf') && name !== 'sheets.pdf' && name !== 'papers.pdf' },
  { title: 'papers.drawings', has: (name) => /^(roof|elevation|roll)-.*\.svg$/.test(name) },
  { title: 'papers.patterns', has: (name) => /^pattern-.*\.svg$/.test(name) },
  { title: 'papers.dxf', has: (name) => name.endsWith('.dxf') },
  { title: 'papers.data', has: (name) => /\.(json|csv)$/.test(name) },
];

// A small picture of the first drawing on a sheet of paper: what lies behind the button.
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

const kNoFiles: PaperFile[] = [];

export function Papers({ session }: { session: Session }) {
  const [state, put] = useState<State>({ at: 'idle' });
  const asked = useRef(0);
  const { job, readable } = session;
  const name = slopeName(job.slopes[0]!, 0);
  const make = async () => {
    asked.current += 1;
    const mine = asked.current;
    const text = session.readableText;
    put({ at: 'making' });
    try {
      const files = await session.engine.documents(text);
      if (mine === asked.current) put(files ? { at: 'made', files, text } : { at: 'idle' });
    } catch {
      if (mine === asked.current) put({ at: 'failed' });
    }
  };
  const cancel = () => {
    asked.current += 1;
    session.engine.cancelDocuments();
    put({ at: 'idle' });
  };
  const save = (file: PaperFile) => {
    const sheets = file.name === 'sheets.pdf' ? fileName(job.title ?? '', '.pdf') : file.name;
    download(sheets, file.media, file.bytes);
  };
  const sheets = state.at === 'made' ? state.files.find((file) => file.name === 'sheets.pdf') : undefined;
  const face = useFace(state.at === 'made' ? state.files : kNoFiles);
  const old = state.at === 'made' && state.text !== session.readableText;

  return (
    <Frame
      session={session}
      rung="papers"
      title={say('rung.papers')}
      stage={{ view: `roof/${name}`, views: [], onView: () => undefined, mark: () => '' }}
    >
      <h2>{say('rung.papers')}</h2>
      <p class="from">{say('papers.about')}</p>
      {state.at === 'making' ? (
        <p role="status">{say('papers.making')} <button type="button" onClick={cancel}>{say('papers.cancel')}</button></p>
      ) : (
        <button type="button" class="next wide" disabled={!readable?.plan} onClick={() => void make()}>
          {say(state.at === 'made' ? 'papers.again' : 'papers.make')}
        </button>
      )}
      {state.at === 'failed' && <p role="alert">{say('engine.trouble')}</p>}
      {old && <p class="quiet" role="status">{say('papers.old')}</p>}
      {state.at === 'made' && (
        <>
          {sheets && (
            <button type="button" class="paper-sheet" onClick={() => save(sheets)}>
              <span class="leaf" aria-hidden="true">{face && <img src={face} alt="" />}</span>
              <span>
                <b>{say('papers.sheets')}</b>
                <small>{say('papers.size', { size: Math.ceil(sheets.bytes.length / 1000) })}</small>
              </span>
            </button>
          )}
          {kGroups.map((group) => {
            const files = state.files.filter((file) => group.has(file.name));
            return files.length === 0 ? null : (
              <details key={group.title} class="all">
                <summary>{sayMany(group.title, files.length)}</summary>
                <ul class="files">
                  {files.map((file) => (
                    <li key={file.name}><button type="button" onClick={() => save(file)} data-engine>{file.name}</button></li>
                  ))}
                </ul>
              </details>
            );
          })}
        </>
      )}
      <button type="button" class="wide" onClick={() => download(fileName(job.title ?? '', '.json'), 'application/json', session.text)}>
        {say('papers.job')}
      </button>
      <section>
        <h3>{say('findings.title')}</h3>
        <Findings session={session} findings={(readable?.plan?.findings ?? []).filter((one) => one.level !== 'note')} />
      </section>
    </Frame>
  );
}
