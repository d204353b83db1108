// What was typed and is not yet saved. Written at once and synchronously, so that a tab that is killed between the key
// and the save loses nothing; a job is taken up from its draft when the draft grew from the revision that is stored.
interface Draft {
  from: string | null;
  text: string;
}

const key = (id: string): string => `lapwright.draft.${id}`;
const leftKey = (id: string): string => `lapwright.left.${id}`;

export function keepDraft(id: string, from: string | null, text: string): boolean {
  try {
    localStorage.setItem(key(id), JSON.stringify({ from, text } satisfies Draft));
    return true;
  } catch {
    return false; // full or forbidden: the save itself will say so
  }
}

export function draftOf(id: string): Draft | null {
  try {
    const text = localStorage.getItem(key(id));
    if (text === null) return null;
    const draft = JSON.parse(text) as Draft;
    return typeof draft.text === 'string' ? draft : null;
  } catch {
    return null;
  }
}

// A draft that grew from a revision that is no longer the last is laid aside: it is offered, and never wins silently.
export function layAside(id: string): void {
  const draft = draftOf(id);
  if (!draft) return;
  try {
    localStorage.setItem(leftKey(id), draft.text);
    localStorage.removeItem(key(id));
  } catch {
    // it stays where it was
  }
}

export function leftOf(id: string): string | null {
  try {
    return localStorage.getItem(leftKey(id));
  } catch {
    return null;
  }
}

export function dropLeft(id: string): void {
  try {
    localStorage.removeItem(leftKey(id));
  } catch {
    // nothing was kept
  }
}

export function dropDraft(id: string): void {
  try {
    localStorage.removeItem(key(id));
  } catch {
    // nothing was kept
  }
}
