// What is wrong with a value, in words for the field that it stands in: no key and no place of the job file is spoken.
import type { Fault } from '../engine/engine';
import { say } from '../words/words';
import type { Question } from './questions';

const placeOf = (fault: Fault): string => fault.path.replace(/^\$\.?/, '');

export function faultAt(faults: Fault[], path: string): Fault | undefined {
  return faults.find((fault) => {
    const at = placeOf(fault);
    return at === path || at.startsWith(`${path}[`) || at.startsWith(`${path}.`);
  });
}

// The question whose field mends it: its own, or the first that is asked of the same thing.
export function questionOf(fault: Fault, questions: Question[]): Question | undefined {
  const at = placeOf(fault);
  const own = questions.find((asked) => at === asked.path || at.startsWith(`${asked.path}[`) || at.startsWith(`${asked.path}.`));
  return own ?? questions.find((asked) => at !== '' && asked.path.startsWith(`${at}.`));
}

function bounds(range: NonNullable<Fault['range']>): string {
  const least = range.least === undefined ? '' : say(range.above ? 'fault.above' : 'fault.least', { least: range.least });
  const most = range.most === undefined ? '' : say(range.below ? 'fault.below' : 'fault.most', { most: range.most });
  if (least && most) return say('fault.both', { least, most });
  return least || most ? say('fault.bound', { bound: least || most }) : '';
}

// `typed`: what stands in the field. `own`: sentences of the engine, which has them in one language.
export interface Told {
  text: string;
  own: string;
}

export function tellFault(fault: Fault, typed: string): Told {
  const range = fault.range ? bounds(fault.range) : '';
  if (typed.trim() === '') return { text: say('fault.empty'), own: '' };
  if (fault.code === 'bad-length') return { text: say('fault.not_a_length'), own: sentence(fault.mend) };
  if (fault.code === 'wrong-type') return { text: `${say('fault.not_a_number')} ${range}`.trim(), own: '' };
  if (range) return { text: `${range} ${say('fault.again')}`, own: '' };
  return { text: '', own: [fault.accepted, fault.mend].filter(Boolean).map(sentence).join(' ') };
}

const sentence = (text: string): string => (text ? `${text[0]?.toUpperCase()}${text.slice(1)}.` : '');
