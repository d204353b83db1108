// Which store this page has: the folder of the server that it came from, else this device. A server that kept jobs once
// and does not answer now is taken to be away, not gone.
import { DeviceStore } from './device';
import { FolderStore } from './folder';
import { MirroredFolder } from './mirror';
import type { Store } from './store';

const kSeen = 'lapwright.folder';

function seenBefore(): boolean {
  try {
    return localStorage.getItem(kSeen) === 'yes';
  } catch {
    return false;
  }
}

export async function chooseStore(): Promise<{ store: Store; inFolder: boolean }> {
  const found = await FolderStore.look();
  const inFolder = found === 'there' || (found === 'away' && seenBefore());
  try {
    if (found === 'there') localStorage.setItem(kSeen, 'yes');
  } catch {
    // then it is asked for again each time
  }
  return { store: inFolder ? new MirroredFolder(new FolderStore()) : new DeviceStore(), inFolder };
}
