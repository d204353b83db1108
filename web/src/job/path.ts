// Places in a job by path, as the engine writes them: "slopes[0].covering.length". Nothing is changed in place.
type Step = string | number;

export function stepsOf(path: string): Step[] {
  const steps: Step[] = [];
  for (const match of path.replace(/^\$\.?/, '').matchAll(/\[(\d+)\]|\["((?:[^"\\]|\\.)*)"\]|([^.[\]]+)/g)) {
    if (match[1] !== undefined) steps.push(Number(match[1]));
    else steps.push(match[2] ?? match[3] ?? '');
  }
  return steps;
}

export function valueAt(from: unknown, path: string): unknown {
  let here = from;
  for (const step of stepsOf(path)) {
    if (here === null || typeof here !== 'object') return undefined;
    here = (here as Record<Step, unknown>)[step];
  }
  return here;
}

// `undefined` takes the key (or the entry of a list) away.
export function withValue<Whole>(from: Whole, path: string, value: unknown): Whole {
  return put(from, stepsOf(path), value) as Whole;
}

function put(here: unknown, steps: Step[], value: unknown): unknown {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = Array.isArray(here) ? [...(here as unknown[])] : [];
    const next = put(list[step], rest, value);
    if (next === undefined && rest.length === 0) list.splice(step, 1);
    else list[step] = next;
    return list;
  }
  const object: Record<string, unknown> = here !== null && typeof here === 'object' ? { ...(here as object) } : {};
  const next = put(object[step], rest, value);
  if (next === undefined) delete object[step];
  else object[step] = next;
  return object;
}
