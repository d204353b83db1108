// Adding what stands on a roof: tapped where it is, then told what it is. Without a tap it stands in the middle.
import { withJunction, withSlope, withValley, type Addable, type Spot } from '../job/changes';
import { valueAt } from '../job/path';
import { typedOf } from '../job/answers';
import { go } from '../route';
import type { Session } from '../session';
import { say } from '../words/words';

const kKinds: Addable[] = ['left', 'right', 'top', 'stack', 'pipe', 'valley', 'slope'];

interface AddProps {
  session: Session;
  slope: number;
  spot: Spot | null;
  done: () => void;
}

export function AddThing({ session, slope, spot, done }: AddProps) {
  const { job } = session;
  const size = (key: string, otherwise: number): number => {
    const { text, unit } = typedOf(valueAt(job, `slopes[${slope}].${key}`), job.unit ?? 'mm');
    const number = Number(text);
    return unit === 'mm' && number > 0 ? number : otherwise;
  };
  // Nearest first: a tap by an edge means what stands at that edge.
  const middle = { u: size('width', 4000) / 2, s: size('rafter', 3000) / 2 };
  const at = spot ?? middle;
  const near = (value: number, whole: number): number => Math.abs(value) / Math.max(1, whole);
  const far: Record<Addable, number> = {
    left: near(at.u, middle.u * 2),
    right: near(middle.u * 2 - at.u, middle.u * 2),
    top: near(middle.s * 2 - at.s, middle.s * 2),
    stack: 0.16,
    pipe: 0.17,
    valley: 0.9,
    slope: 0.95,
  };
  const kinds = spot ? [...kKinds].sort((a, b) => far[a] - far[b]) : kKinds;

  const add = (kind: Addable) => {
    if (kind === 'valley' || kind === 'slope') {
      const other = job.slopes.length;
      session.change((kind === 'valley' ? withValley : withSlope)(job, slope, say('add.name.slope')));
      done();
      go({ at: 'job', id: session.id, rung: 'measure', rest: [`slopes[${other}].pitch`] });
      return;
    }
    const index = (job.slopes[slope]?.junctions ?? []).length;
    session.change(withJunction(job, slope, kind, say(`add.name.${kind}`), at));
    done();
    const first = kind === 'stack' || kind === 'pipe' ? 'at' : 'wall.kind';
    go({ at: 'job', id: session.id, rung: 'measure', rest: [`slopes[${slope}].junctions[${index}].${first}`] });
  };

  return (
    <div class="question">
      <h2>{say('add.what')}</h2>
      <p class="from">{spot ? say('add.there', { u: Math.round(at.u), s: Math.round(at.s) }) : say('add.tap')}</p>
      <div class="options tall">
        {kinds.map((kind) => (
          <button key={kind} type="button" onClick={() => add(kind)}>{say(`add.${kind}`)}</button>
        ))}
      </div>
      <div class="onward"><button type="button" onClick={done}>{say('add.stop')}</button></div>
    </div>
  );
}
