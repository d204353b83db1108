import { describe, expect, it } from 'vitest';
import { boughtOf, partsOf, runsOf, type Roll } from '../src/rungs/cut_steps';
import { money, moneyOf, moneyText, tape } from '../src/rungs/shown';
import { climbOf, coveringCurve, firstDrift, leadCurve, verdictOf, type Frontier } from '../src/rungs/weather';

const roll = (name: string, more: Partial<Roll> = {}): Roll => ({
  name, code: 4, width: 300, length: 6000, count: 1, price: 11000, mass: 36, pieces: [], cuts: [], ...more,
});

describe('the cuts of a roll', () => {
  const step = { part: 'roll', way: 'across' as const, at: [190, 380, 500], gives: ['a', 'a', 'b', ''], cuts: 3 };
  it('run together what is alike, and end with what is left over', () => {
    expect(runsOf(step)).toEqual([
      { part: 'a', marks: [190, 380], count: 2 },
      { part: 'b', marks: [500], count: 1 },
      { part: '', marks: [], count: 1 },
    ]);
    expect(runsOf({ ...step, way: 'teeth', at: [], gives: ['F1', 'F2'] }).map((run) => run.part)).toEqual(['F1', 'F2']);
  });
  it('count the parts that there are by then', () => {
    const cuts = [step, { part: 'a', way: 'along' as const, at: [100], gives: ['S1', 'S1', ''], cuts: 2 }];
    const parts = partsOf(roll('R1', { cuts }));
    expect([parts.get('a'), parts.get('b'), parts.get('S1')]).toEqual([2, 1, 4]);
  });
  it('are of rolls that are bought by size, and from the rack apart', () => {
    const all = boughtOf([roll('R1'), roll('R2', { count: 2 }), roll('R3', { offcut: true }), roll('R4', { width: 240 })]);
    expect(all.map(({ count, names }) => [count, names.join()])).toEqual([[3, 'R1,R2'], [1, 'R3'], [1, 'R4']]);
  });
});

describe('what is read', () => {
  it('takes amounts as they are written, and nothing else', () => {
    expect(['3.10', '3,1', '3', ' 12.05 ', '0'].map(moneyOf)).toEqual([310, 310, 300, 1205, 0]);
    expect(['', 'x', '-3', '3.101', '1,000.00', '3e2'].map(moneyOf)).toEqual([null, null, null, null, null, null]);
    expect(moneyText(310)).toBe('3.10');
    expect(money(570000, 'GBP')).toBe('£5,700.00');
    expect(money(1250, 'no code')).toBe('12.5 no code');
  });
  it('shows a tape in millimetres, or in feet, inches and sixteenths', () => {
    expect(tape(189.6, false)).toBe('190');
    // 25.4 mm an inch, exactly.
    expect([25.4, 304.8, 12.7, 342.9, 317.5, 1.5875].map((mm) => tape(mm, true))).toEqual(['1 in', '1 ft', '1/2 in', '1 ft 1 1/2 in', '1 ft 0 1/2 in', '1/16 in']);
  });
});

describe('a weather', () => {
  const f: Frontier = {
    slope: 'rear', junction: 'wall', drift: 40, climb: 60, rise: 30, wind: 20, covering_drift: 40, covering_climb: 63, run: 3600, courses: 36,
    points: [{ drift: 10, climb: 63, covering: 63 }, { drift: 20, climb: 50, covering: 63 }, { drift: 30, climb: 20, covering: 40 }], holds: true,
  };
  const lead = leadCurve(f);
  it('is stood where a harder one is, given where a milder one is not, and doubtful between', () => {
    expect(verdictOf(lead, 0, 0)).toBe('right');
    expect(verdictOf(lead, 0, 60)).toBe('right');
    expect(verdictOf(lead, 0, 60.5)).toBe('wrong');
    expect(verdictOf(lead, 20, 50)).toBe('right');
    expect(verdictOf(lead, 25, 30)).toBe('doubt'); // 50 at 20°, 20 at 30°
    expect(verdictOf(lead, 30, 21)).toBe('wrong');
    expect(verdictOf(lead, 40, 0)).toBe('right');
    expect(verdictOf(lead, 41, 0)).toBe('wrong');
    expect(verdictOf(coveringCurve(f), 30, 39)).toBe('right');
  });
  it('never gives with more of one what it does not give with less', () => {
    const worse = { right: 0, doubt: 1, wrong: 2 };
    for (let drift = 0; drift <= 60; drift += 2.5) {
      for (let climb = 0; climb <= 80; climb += 2.5) {
        const here = worse[verdictOf(lead, drift, climb)];
        expect(worse[verdictOf(lead, drift + 2.5, climb)]).toBeGreaterThanOrEqual(here);
        expect(worse[verdictOf(lead, drift, climb + 2.5)]).toBeGreaterThanOrEqual(here);
      }
    }
  });
  it('drives water as far as its head, which grows with the square of the wind', () => {
    expect(climbOf(20, f, [f])).toBeCloseTo(60);
    expect(climbOf(10, f, [f])).toBeCloseTo(15);
    // Of a junction that leaks dry, by another's numbers.
    const dry = { ...f, junction: 'bad', drift: -1, climb: -1, rise: 0, wind: 0 };
    expect(climbOf(20, dry, [dry, f])).toBeCloseTo(60);
    expect(verdictOf(leadCurve(dry), 0, 0)).toBe('wrong');
    expect(firstDrift([f, dry])).toMatchObject({ at: 0, of: { junction: 'bad' } });
  });
});
