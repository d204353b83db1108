// What is to be asked of a job, one thing at a time, in the order that a person goes round a roof.
import type { Job, JobJunction, JobSlope } from '../generated/job';
import { junctionName, slopeName } from './job_parts';
import { valueAt } from './path';

export type QuestionKind = 'length' | 'angle' | 'choice';

export interface Question {
  path: string; // the value's place in the job
  ask: string; // its words: "ask.ASK", "ask.ASK.from"
  kind: QuestionKind;
  picture: string; // the engine's picture that shows it
  about: string; // the slope or junction, as the person named it
  needed: boolean; // without a default
  spread: boolean; // may carry ±
  options: string[]; // of a choice; their words: "choice.OPTION"
  otherwise: string; // of a choice that is not made
}

type Made = Partial<Question> & Pick<Question, 'path' | 'ask' | 'picture' | 'about'>;
const question = (made: Made): Question => ({
  kind: 'length',
  needed: false,
  spread: false,
  options: [],
  otherwise: '',
  ...made,
});

function ofCovering(slope: JobSlope, path: string, name: string): Question[] {
  const covering = `${path}.covering`;
  const unit = { about: name, picture: `unit/${name}` };
  const kind = slope.covering.kind;
  const list = [
    question({
      ...unit, path: `${covering}.kind`, ask: 'covering.kind', kind: 'choice', needed: true, otherwise: kind,
      options: ['plain-tile', 'slate', 'profiled-tile', 'flat-tile'],
    }),
    question({ ...unit, path: `${covering}.length`, ask: 'covering.length', needed: true, spread: true }),
    question({ ...unit, path: `${covering}.width`, ask: 'covering.width', needed: true, spread: true }),
    question({ ...unit, path: `${covering}.thickness`, ask: 'covering.thickness', spread: true }),
    question({ ...unit, path: `${covering}.camber`, ask: 'covering.camber', spread: true }),
  ];
  if (kind === 'plain-tile') {
    list.push(question({
      ...unit, path: `${covering}.made`, ask: 'covering.made', kind: 'choice', otherwise: 'machine', options: ['machine', 'hand'],
    }));
  }
  if (kind === 'slate') {
    list.push(question({
      ...unit, path: `${covering}.nailing`, ask: 'covering.nailing', kind: 'choice', otherwise: 'centre', options: ['centre', 'head', 'hung'],
    }));
  }
  if (kind === 'profiled-tile') {
    list.push(
      question({ ...unit, path: `${covering}.roll_pitch`, ask: 'covering.roll_pitch' }),
      question({ ...unit, path: `${covering}.roll_depth`, ask: 'covering.roll_depth' }),
    );
  }
  const courses = { about: name, picture: `courses/${name}` };
  list.push(
    question({ ...courses, path: `${covering}.max_gauge`, ask: 'covering.max_gauge' }),
    question({ ...courses, path: `${covering}.headlap`, ask: 'covering.headlap' }),
  );
  return list;
}

function ofJunction(junction: JobJunction, path: string, slope: string, name: string): Question[] {
  const roof = { about: name, picture: `roof/${slope}` };
  const wall = { about: name, picture: `wall/${slope}/${name}` };
  const foot = { about: name, picture: `foot/${slope}/${name}` };
  const list: Question[] = [];
  if (junction.kind === 'side') {
    list.push(question({
      ...roof, path: `${path}.hand`, ask: 'hand', kind: 'choice', needed: true, otherwise: 'left', options: ['left', 'right'],
    }));
  }
  if (junction.kind === 'side' || junction.kind === 'top') {
    const ask = junction.kind === 'side' ? 'wall' : 'top';
    list.push(
      question({ ...roof, path: `${path}.from`, ask: `${ask}.begins` }),
      question({ ...roof, path: `${path}.to`, ask: `${ask}.ends` }),
    );
  }
  if (junction.kind === 'stack') {
    for (const key of ['at', 'front', 'width', 'depth']) {
      list.push(question({ ...roof, path: `${path}.${key}`, ask: `stack.${key}`, needed: true }));
    }
  }
  if (junction.kind === 'pipe') {
    for (const key of ['at', 'up', 'diameter']) {
      list.push(question({ ...roof, path: `${path}.${key}`, ask: `pipe.${key}`, needed: true }));
    }
    return list;
  }
  for (const [i] of (junction.line ?? []).entries()) {
    list.push(
      question({ ...roof, path: `${path}.line[${i}][0]`, ask: 'line.along', needed: true }),
      question({ ...roof, path: `${path}.line[${i}][1]`, ask: 'line.up', needed: true }),
    );
  }
  list.push(question({
    ...wall, path: `${path}.wall.kind`, ask: 'wall.kind', kind: 'choice', otherwise: 'brick', options: ['brick', 'stone', 'render'],
  }));
  if ((junction.wall?.kind ?? 'brick') === 'brick' && !junction.wall?.joints) {
    list.push(question({ ...foot, path: `${path}.wall.course`, ask: 'wall.course', spread: true }));
    if (junction.kind !== 'top') {
      list.push(question({ ...foot, path: `${path}.wall.first_joint`, ask: 'wall.first_joint', spread: true }));
    }
  }
  if (!Array.isArray(junction.gap) || typeof junction.gap[0] !== 'object') {
    list.push(question({ about: name, picture: `gap/${slope}/${name}`, path: `${path}.gap`, ask: 'gap', spread: true }));
  }
  return list;
}

export function questionsOf(job: Job): Question[] {
  const list: Question[] = [];
  for (const [i, slope] of job.slopes.entries()) {
    const path = `slopes[${i}]`;
    const name = slopeName(slope, i);
    list.push(
      question({ path: `${path}.pitch`, ask: 'pitch', kind: 'angle', picture: `side/${name}`, about: name, needed: true, spread: true }),
      question({ path: `${path}.rafter`, ask: 'rafter', picture: `roof/${name}`, about: name, needed: true, spread: true }),
      question({ path: `${path}.width`, ask: 'width', picture: `roof/${name}`, about: name, needed: true, spread: true }),
      question({ path: `${path}.overhang`, ask: 'overhang', picture: `eaves/${name}`, about: name }),
      ...ofCovering(slope, path, name),
    );
    for (const [j, junction] of (slope.junctions ?? []).entries()) {
      list.push(...ofJunction(junction, `${path}.junctions[${j}]`, name, junctionName(junction, j)));
    }
  }
  const first = job.slopes[0];
  list.push(question({
    path: 'site.exposure', ask: 'exposure', kind: 'choice', otherwise: 'moderate',
    picture: `roof/${first ? slopeName(first, 0) : ''}`, about: job.title ?? '',
    options: ['sheltered', 'moderate', 'severe', 'very-severe'],
  }));
  return list;
}

export const isAnswered = (job: Job, asked: Question): boolean => valueAt(job, asked.path) !== undefined;
export const isGuessed = (job: Job, asked: Question): boolean => (job.guessed ?? []).includes(asked.path);
