// Which steps are done, kept on this device beside the job.
const key = (id: string): string => `lapwright.ticks.${id}`;

export function ticksOf(id: string): Set<string> {
  try {
    const list: unknown = JSON.parse(localStorage.getItem(key(id)) ?? '[]');
    return new Set(Array.isArray(list) ? list.filter((one): one is string => typeof one === 'string') : []);
  } catch {
    return new Set();
  }
}

export function keepTicks(id: string, ticks: Set<string>): void {
  try {
    localStorage.setItem(key(id), JSON.stringify([...ticks]));
  } catch {
    // no room: the ticks last as long as the page
  }
}
