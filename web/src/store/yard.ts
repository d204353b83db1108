// Where the yard is kept: one for all jobs, on this device, whole or not at all. Its text may hold what is wrong: what
// was typed is kept, and is told as wrong where it stands.
import { database, done, finished } from './database';

export interface YardStore {
  open(): Promise<string | null>; // null: none of one's own
  // False when there is no room or no place to keep it.
  save(text: string): Promise<boolean>;
  forget(): Promise<boolean>;
}

const kKey = 'yard';

export class DeviceYard implements YardStore {
  async open(): Promise<string | null> {
    const held = await done<unknown>((await database()).transaction('small').objectStore('small').get(kKey));
    return typeof held === 'string' ? held : null;
  }

  save(text: string): Promise<boolean> {
    return this.write((small) => small.put(text, kKey));
  }

  forget(): Promise<boolean> {
    return this.write((small) => small.delete(kKey));
  }

  private async write(change: (small: IDBObjectStore) => void): Promise<boolean> {
    try {
      const transaction = (await database()).transaction('small', 'readwrite', { durability: 'strict' });
      const ended = finished(transaction);
      change(transaction.objectStore('small'));
      await ended;
      return true;
    } catch {
      return false;
    }
  }
}
