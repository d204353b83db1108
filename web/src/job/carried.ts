// A job in an address, to be carried by a code on the screen: deflated, in the letters that an address may hold.
const kMostBytes = 200_000; // of what comes in, unpacked

async function through(bytes: Uint8Array, stream: CompressionStream | DecompressionStream, most = Infinity): Promise<Uint8Array> {
  const reader = new Blob([bytes as BlobPart]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel();
      throw new Error('too large');
    }
    parts.push(value);
  }
  const out = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

export async function packed(text: string): Promise<string> {
  const small = JSON.stringify(JSON.parse(text));
  const bytes = await through(new TextEncoder().encode(small), new CompressionStream('deflate-raw'));
  let letters = '';
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return btoa(letters).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

// Null when it is nothing that was packed here.
export async function unpacked(letters: string): Promise<string | null> {
  try {
    const raw = atob(letters.replace(/-/g, '+').replace(/_/g, '/'));
    const bytes = Uint8Array.from(raw, (c) => c.charCodeAt(0));
    return new TextDecoder('utf-8', { fatal: true }).decode(await through(bytes, new DecompressionStream('deflate-raw'), kMostBytes));
  } catch {
    return null;
  }
}
