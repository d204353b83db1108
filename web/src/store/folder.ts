// Jobs in the folder that the server keeps: GET, PUT and DELETE with the revision as ETag.
import type { Held, Listed, Saved, Store } from './store';

const kRoot = './api/jobs';

export class FolderStore implements Store {
  // Whether this page came from a server that keeps jobs; `away` when nothing answers.
  static async look(): Promise<'there' | 'none' | 'away'> {
    if (!location.protocol.startsWith('http')) return 'none';
    try {
      const answer = await fetch(kRoot, { headers: { accept: 'application/json' }, cache: 'no-store' });
      const keeps = answer.ok && (answer.headers.get('content-type') ?? '').includes('application/json');
      return keeps ? 'there' : 'none';
    } catch {
      return 'away';
    }
  }

  async list(): Promise<Listed[]> {
    const answer = await fetch(kRoot, { cache: 'no-store' });
    if (!answer.ok) throw new Error(`folder: ${answer.status}`);
    const body = (await answer.json()) as { jobs?: unknown } | unknown[];
    const rows = (Array.isArray(body) ? body : (body.jobs ?? [])) as { id: string; title?: string; changed?: number }[];
    return rows.map((row) => ({ id: row.id, title: row.title ?? '', changed: row.changed ?? 0 }));
  }

  async open(id: string): Promise<Held | null> {
    const answer = await fetch(`${kRoot}/${encodeURIComponent(id)}`, { cache: 'no-store' });
    if (answer.status === 404) return null;
    if (!answer.ok) throw new Error(`folder: ${answer.status}`);
    return { id, revision: answer.headers.get('etag') ?? '', text: await answer.text() };
  }

  async save(id: string, text: string, from: string | null): Promise<Saved> {
    try {
      const condition: Record<string, string> = from ? { 'if-match': from } : { 'if-none-match': '*' };
      const answer = await fetch(`${kRoot}/${encodeURIComponent(id)}`, {
        method: 'PUT',
        headers: { 'content-type': 'application/json', ...condition },
        body: text,
      });
      if (answer.ok) return { kind: 'saved', revision: answer.headers.get('etag') ?? '' };
      if (answer.status === 412) return { kind: 'other' };
      return { kind: answer.status === 507 ? 'full' : 'away' };
    } catch {
      return { kind: 'away' };
    }
  }

  async remove(id: string): Promise<void> {
    const held = await this.open(id);
    if (!held) return;
    await fetch(`${kRoot}/${encodeURIComponent(id)}`, { method: 'DELETE', headers: { 'if-match': held.revision } });
  }
}
