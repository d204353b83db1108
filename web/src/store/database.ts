// The page's one IndexedDB: jobs by id, and small things (ticks, settings) by name.
export interface JobRow {
  id: string;
  revision: number;
  text: string;
  changed: number;
}

const kName = 'lapwright';
const kVersion = 1;

export function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('database'));
  });
}

export function finished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    const fail = () => reject(transaction.error ?? new Error('database'));
    transaction.onerror = fail;
    transaction.onabort = fail;
  });
}

let opened: Promise<IDBDatabase> | null = null;

export function database(): Promise<IDBDatabase> {
  opened ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(kName, kVersion);
    request.onupgradeneeded = () => {
      request.result.createObjectStore('jobs', { keyPath: 'id' });
      request.result.createObjectStore('small');
    };
    request.onsuccess = () => {
      // A newer page in another window must not wait for this one.
      request.result.onversionchange = () => {
        request.result.close();
        opened = null;
      };
      resolve(request.result);
    };
    request.onerror = () => reject(request.error ?? new Error('database'));
  }).catch((error: unknown) => {
    opened = null;
    throw error;
  });
  return opened;
}
