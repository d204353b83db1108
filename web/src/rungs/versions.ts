// A version of a job that a person chose to keep, to compare with later: one a job, on this device.
import { database, done, finished } from '../store/database';

export interface Version {
  text: string;
  kept: number; // ms since 1970
}

const key = (id: string): string => `version/${id}`;

export async function versionOf(id: string): Promise<Version | null> {
  try {
    const held = await done<unknown>((await database()).transaction('small').objectStore('small').get(key(id)));
    return held !== null && typeof held === 'object' && 'text' in held ? (held as Version) : null;
  } catch {
    return null;
  }
}

export async function keepVersion(id: string, text: string): Promise<boolean> {
  try {
    const transaction = (await database()).transaction('small', 'readwrite');
    const ended = finished(transaction);
    transaction.objectStore('small').put({ text, kept: Date.now() } satisfies Version, key(id));
    await ended;
    return true;
  } catch {
    return false;
  }
}
