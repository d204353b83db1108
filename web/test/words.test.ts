import { describe, expect, it } from 'vitest';
import english from '../src/words/en.json';
import { emptyJob, withJunction } from '../src/job/changes';
import { questionsOf } from '../src/job/questions';
import { pseudo } from '../src/words/pseudo';
import { routeOf, addressOf } from '../src/route';

const words: Record<string, string> = english;
const sources = Object.values(
  import.meta.glob<string>('../src/**/*.{ts,tsx}', { query: '?raw', import: 'default', eager: true }),
).join('\n');

describe('the catalogue', () => {
  it('has every word of every question', () => {
    for (const kind of ['plain-tile', 'slate', 'profiled-tile', 'flat-tile'] as const) {
      let job = emptyJob('a', 'b', kind);
      for (const one of ['left', 'top', 'stack', 'pipe'] as const) job = withJunction(job, 0, one, one, { u: 1, s: 1 });
      job.slopes[0]?.junctions?.push({ kind: 'wall', line: [[0, 0], [1, 1]] });
      for (const asked of questionsOf(job)) {
        expect(words, asked.path).toHaveProperty([`ask.${asked.ask}`]);
        expect(words, asked.path).toHaveProperty([`ask.${asked.ask}.from`]);
        for (const option of asked.options) expect(words).toHaveProperty([`choice.${option}`]);
      }
    }
  });
  it('holds no word that nobody says', () => {
    const put = /^(ask|choice|detail|level|rung|save|settings|measure|add|papers|paper|yard|price|compare|cut|leaks)\./; // keys that are put together
    const isSaid = (key: string) => sources.includes(`'${key}'`);
    const unsaid = Object.keys(words).filter((key) => !put.test(key) && !isSaid(key) && !isSaid(key.replace(/\.one$/, '')));
    expect(unsaid).toEqual([]);
  });
  it('becomes a language of its own with the same values', () => {
    for (const [key, text] of Object.entries(pseudo(words))) {
      expect(text.startsWith('⟦') && text.endsWith('⟧')).toBe(true);
      expect(text.match(/\{\w+\}/g)).toEqual(words[key]?.match(/\{\w+\}/g) ?? null);
    }
  });
});

describe('addresses', () => {
  it('lead where they say, whatever a junction is called', () => {
    const route = { at: 'job' as const, id: 'a', rung: 'lead' as const, rest: ['at', 'rear / 50%', '#wall?'] };
    expect(routeOf(addressOf(route))).toEqual(route);
    expect(routeOf('#/job/a/nowhere/x')).toEqual({ at: 'job', id: 'a', rung: 'measure', rest: [] });
    expect(routeOf('#/%E0%A4%A')).toEqual({ at: 'jobs' });
  });
});
