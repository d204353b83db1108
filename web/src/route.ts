// Where one is, as the address says it: "#/", "#/demo", "#/job/ID/lead/house%20wall".
export const rungs = ['measure', 'layout', 'lead', 'water', 'cut', 'papers'] as const;
export type Rung = (typeof rungs)[number];

export type Route =
  | { at: 'jobs' }
  | { at: 'demo' }
  | { at: 'take'; letters: string }
  | { at: 'job'; id: string; rung: Rung; rest: string[] }
  | { at: 'roof'; id: string };

export function routeOf(hash: string): Route {
  const [first, id, rung, ...rest] = hash
    .replace(/^#?\/?/, '')
    .split('/')
    .map((part) => {
      try {
        return decodeURIComponent(part);
      } catch {
        return part;
      }
    });
  if (first === 'demo') return { at: 'demo' };
  if (first === 'take' && id) return { at: 'take', letters: id };
  if (first === 'job' && id) {
    if (rung === 'roof') return { at: 'roof', id };
    const known = rungs.find((one) => one === rung);
    return { at: 'job', id, rung: known ?? 'measure', rest: known ? rest : [] };
  }
  return { at: 'jobs' };
}

export function addressOf(route: Route): string {
  const parts =
    route.at === 'jobs'
      ? []
      : route.at === 'demo'
        ? ['demo']
        : route.at === 'take'
          ? ['take', route.letters]
        : route.at === 'roof'
          ? ['job', route.id, 'roof']
          : ['job', route.id, route.rung, ...route.rest];
  return `#/${parts.map(encodeURIComponent).join('/')}`;
}

export const go = (route: Route): void => {
  location.hash = addressOf(route);
};
