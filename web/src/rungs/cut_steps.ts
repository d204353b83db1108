// The cuts of a roll as a hand goes through them.
import type { Plan } from '../generated/plan';

export type Cutting = NonNullable<Plan['cutting']>;
export type Roll = NonNullable<Cutting['rolls']>[number];
export type CutStep = Roll['cuts'][number];

// Marks of the tape that give parts of one name, one after the other. Without marks: what lies behind the last one.
export interface Run {
  part: string; // empty: left over
  marks: number[];
  count: number;
}

export function runsOf(step: CutStep): Run[] {
  const runs: Run[] = [];
  step.gives.forEach((part, i) => {
    const mark = step.at[i];
    const last = runs.at(-1);
    if (last && last.part === part && mark !== undefined) {
      last.marks.push(mark);
      last.count += 1;
    } else if (last && last.part === part && part !== '') {
      last.count += 1;
    } else {
      runs.push({ part, marks: mark === undefined ? [] : [mark], count: 1 });
    }
  });
  return runs;
}

// How many parts of each name there are by the time that it is cut.
export function partsOf(roll: Roll): Map<string, number> {
  const count = new Map<string, number>([['roll', 1]]);
  for (const step of roll.cuts) {
    const times = count.get(step.part) ?? 1;
    for (const part of step.gives) {
      if (part !== '') count.set(part, (count.get(part) ?? 0) + times);
    }
  }
  return count;
}

// A cut's own name, the same as long as the cut is: what a tick is kept under.
export const keyOf = (roll: Roll, step: CutStep): string =>
  [roll.name, roll.code, roll.width, roll.length, step.part, step.way, step.at.join(' '), step.gives.join(' ')].join('|');

// Rolls of one size, bought or from the rack, in the order of the list.
export interface Bought {
  roll: Roll;
  count: number;
  names: string[];
}

export function boughtOf(rolls: Roll[]): Bought[] {
  const out: Bought[] = [];
  for (const roll of rolls) {
    const same = out.find(
      ({ roll: one }) =>
        one.code === roll.code && one.width === roll.width && one.length === roll.length && (one.offcut ?? false) === (roll.offcut ?? false),
    );
    if (same) {
      same.count += roll.count;
      same.names.push(roll.name);
    } else {
      out.push({ roll, count: roll.count, names: [roll.name] });
    }
  }
  return out;
}
