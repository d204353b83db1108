import { describe, expect, it } from 'vitest';
import type { Job } from '../src/generated/job';
import { typedOf, valueOf } from '../src/job/answers';
import { emptyJob, guess, withJunction, withoutJunction, withoutSlope, withRule, withValley } from '../src/job/changes';
import { fileName, jobOf, textOf } from '../src/job/files';
import { History } from '../src/job/history';
import { mendOf, type Finding } from '../src/job/mending';
import { stepsOf, valueAt, withValue } from '../src/job/path';
import { questionsOf } from '../src/job/questions';
import { keysOf, layerOf, type Step } from '../src/job/steps';

describe('places in a job', () => {
  it('are read as the engine writes them', () => {
    expect(stepsOf('$.slopes[0].covering.length')).toEqual(['slopes', 0, 'covering', 'length']);
    expect(stepsOf('practice["soaker.upstand"]')).toEqual(['practice', 'soaker.upstand']);
  });
  it('are set without changing what was there', () => {
    const job = emptyJob('a', 'b');
    const next = withValue(job, 'slopes[0].pitch', 45);
    expect(job.slopes[0]?.pitch).toBe(40);
    expect(next.slopes[0]?.pitch).toBe(45);
    expect(next.slopes[0]?.covering).toBe(job.slopes[0]?.covering);
  });
  it('are taken away by undefined, also out of a list', () => {
    expect(withValue({ list: [1, 2, 3] }, 'list[1]', undefined)).toEqual({ list: [1, 3] });
    expect(withValue({ a: { b: 1, c: 2 } }, 'a.b', undefined)).toEqual({ a: { c: 2 } });
    expect(valueAt({ a: 1 }, 'a.b.c')).toBeUndefined();
  });
});

describe('answers', () => {
  it('keep a bare number bare and name any other unit', () => {
    expect(valueOf({ text: '3600', unit: 'mm', spread: '' }, 'mm')).toBe(3600);
    expect(valueOf({ text: '10 1/2', unit: 'in', spread: '' }, 'mm')).toBe('10 1/2 in');
    expect(valueOf({ text: '12,5', unit: 'mm', spread: '1' }, 'mm')).toEqual([12.5, 1]);
    expect(valueOf({ text: '18 ft 6 in', unit: 'mm', spread: '' }, 'mm')).toBe('18 ft 6 in');
    expect(valueOf({ text: ' ', unit: 'mm', spread: '1' }, 'mm')).toBeUndefined();
  });
  it('come back as they were typed', () => {
    for (const value of [3600, '10 1/2 in', [12.5, 1], '4.2 m']) {
      expect(valueOf(typedOf(value, 'mm'), 'mm')).toEqual(value);
    }
    expect(typedOf('18 ft 6 in', 'mm')).toEqual({ text: '18 ft 6 in', unit: '', spread: '' });
    expect(valueOf(typedOf('18 ft 6 in', 'mm'), 'mm')).toBe('18 ft 6 in');
  });
});

describe('changes', () => {
  const spot = { u: 1234, s: 567 };
  it('put a stack where it was tapped and tell what of it is guessed', () => {
    const job = withJunction(emptyJob('a', 'b'), 0, 'stack', 'stack', spot);
    expect(job.slopes[0]?.junctions?.[0]).toMatchObject({ kind: 'stack', at: 1230, front: 570 });
    expect(job.guessed).toContain('slopes[0].junctions[0].at');
  });
  it('give no two junctions of a slope one name', () => {
    let job = emptyJob('a', 'b');
    for (let i = 0; i < 3; i += 1) job = withJunction(job, 0, 'pipe', 'pipe', spot);
    expect(job.slopes[0]?.junctions?.map((one) => one.name)).toEqual(['pipe', 'pipe 2', 'pipe 3']);
  });
  it('move guesses up when a junction before them goes away', () => {
    let job = withJunction(emptyJob('a', 'b'), 0, 'left', 'wall', spot);
    job = withoutJunction(withJunction(job, 0, 'pipe', 'pipe', spot), 0, 0);
    expect(job.slopes[0]?.junctions).toHaveLength(1);
    expect(job.guessed).toContain('slopes[0].junctions[0].diameter');
    expect(job.guessed?.some((path) => path.includes('junctions[1]') || path.endsWith('.gap'))).toBe(false);
  });
  it('add a slope with a valley, and take both away', () => {
    const job = withValley(emptyJob('a', 'b'), 0, 'other');
    expect(job.joins).toEqual([{ kind: 'valley', slopes: ['b', 'other'] }]);
    const back = withoutSlope(job, 1);
    expect(back.joins).toBeUndefined();
    expect(back.guessed).toEqual(emptyJob('a', 'b').guessed);
  });
  it('leave nothing empty behind', () => {
    let job: Job = { ...emptyJob('a', 'b') };
    for (const path of job.guessed ?? []) job = guess(job, path, false);
    expect('guessed' in job).toBe(false);
    const ruled = withRule(job, 'soaker.upstand', 80, 'mm');
    expect(ruled.practice).toEqual({ 'soaker.upstand': '80 mm' });
    expect('practice' in withRule(ruled, 'soaker.upstand', undefined, 'mm')).toBe(false);
  });
});

describe('questions', () => {
  it('ask for everything that has no default, each once', () => {
    let job = emptyJob('a', 'b');
    for (const kind of ['left', 'right', 'top', 'stack', 'pipe'] as const) job = withJunction(job, 0, kind, kind, { u: 1, s: 1 });
    const paths = questionsOf(job).map((asked) => asked.path);
    expect(new Set(paths).size).toBe(paths.length);
    for (const guessed of job.guessed ?? []) expect(paths).toContain(guessed);
  });
});

describe('history', () => {
  it('takes keystrokes at one field for one step', () => {
    const history = new History('');
    history.put('4', 'pitch', 0);
    history.put('45', 'pitch', 300);
    history.put('45, 3', 'rafter', 400);
    history.undo();
    expect(history.now).toBe('45');
    history.undo();
    expect(history.now).toBe('');
    expect(history.canUndo).toBe(false);
    history.redo();
    history.redo();
    expect(history.now).toBe('45, 3');
  });
  it('forgets what was undone once something new is done', () => {
    const history = new History(1);
    history.put(2, '', 0);
    history.undo();
    history.put(3, '', 0);
    expect(history.canRedo).toBe(false);
  });
});

describe('mending', () => {
  const job = withJunction(emptyJob('a', 'rear'), 0, 'left', 'wall', { u: 0, s: 0 });
  const found = (rule: string, where: string): Finding => ({ level: 'wrong', rule, where, text: '', params: {} }) as unknown as Finding;
  it('leads to the field', () => {
    expect(mendOf(job, found('survey.guessed', '$.slopes[0].rafter'))).toEqual({ to: 'field', path: 'slopes[0].rafter' });
    expect(mendOf(job, found('gap.too_wide', 'rear / wall'))).toEqual({ to: 'field', path: 'slopes[0].junctions[0].gap' });
    expect(mendOf(job, found('headlap.below', 'rear'))).toEqual({ to: 'field', path: 'slopes[0].pitch' });
    expect(mendOf(job, found('detail.wrong', 'rear / wall / course 3'))).toEqual({ to: 'junction', slope: 'rear', junction: 'wall' });
    expect(mendOf(job, found('practice.under_least', 'practice / soaker.upstand'))).toEqual({ to: 'rule', rule: 'soaker.upstand' });
    expect(mendOf(job, found('x', 'nowhere'))).toEqual({ to: 'nowhere' });
  });
});

describe('the order of work', () => {
  const step = (course: number | undefined, mark?: string): Step =>
    ({ slope: 'rear', junction: 'wall', course, step: 'work.course', mark, text: '', params: {} }) as unknown as Step;
  const steps = [step(-1), step(0, 'S1'), step(1, 'S1'), step(undefined, 'F1'), step(undefined, 'F1')];
  it('lights what a step fits, and hides what comes later', () => {
    const layer = layerOf(steps, 1);
    expect(layer('piece/S1/0/wall')).toBe('now');
    expect(layer('piece/S1/1/wall')).toBe('later');
    expect(layer('piece/F1/-2/wall')).toBe('later');
    expect(layer('course/1')).toBe('later');
    expect(layer('piece/S1/0/another wall')).toBe('');
    expect(layerOf(steps, 3)('piece/S1/1/wall')).toBe('');
    expect(layerOf(steps, 3)('piece/F1/-2/wall')).toBe('now');
  });
  it('shows a piece that lies on no course from its turn on', () => {
    const layer = (at: number) => layerOf([step(8, 'S1'), step(9, 'A1'), step(9, 'S2')], at)('piece/A1/-2/wall');
    expect([layer(0), layer(1), layer(2)]).toEqual(['later', 'now', '']);
  });
  it('gives each step a name of its own', () => {
    expect(new Set(keysOf(steps)).size).toBe(steps.length);
  });
});

describe('files', () => {
  it('come back as they were', () => {
    const job = emptyJob('a', 'b');
    expect(jobOf(textOf(job))).toEqual(job);
    for (const text of ['', '[]', 'null', '{', '3']) expect(jobOf(text)).toBeNull();
  });
  it('have names that any disk takes', () => {
    expect(fileName('../../etc: "passwd"', '.json')).toBe('etc-passwd.json');
    expect(fileName('   ', '.pdf')).toBe('job.pdf');
    expect(fileName('x'.repeat(500), '.pdf').length).toBeLessThan(70);
  });
});
