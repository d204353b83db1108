// A code that our own hand made is read by a reader that is not ours (jsQR).
import jsQR from 'jsqr';
import { describe, expect, it } from 'vitest';
import { packed, unpacked } from '../src/job/carried';
import { qrOf } from '../src/rungs/qr';

// As a camera sees it: a quiet zone around, several pixels a module.
function read(square: boolean[][], pixels = 4): string | null {
  const quiet = 4;
  const wide = (square.length + 2 * quiet) * pixels;
  const image = new Uint8ClampedArray(wide * wide * 4).fill(255);
  square.forEach((row, y) => row.forEach((dark, x) => {
    if (!dark) return;
    for (let dy = 0; dy < pixels; dy += 1) {
      for (let dx = 0; dx < pixels; dx += 1) {
        const at = (((y + quiet) * pixels + dy) * wide + (x + quiet) * pixels + dx) * 4;
        image.fill(0, at, at + 3);
      }
    }
  }));
  return jsQR(image, wide, wide)?.data ?? null;
}

const text = (length: number): string => Array.from({ length }, (_, i) => String.fromCharCode(33 + ((i * 37) % 90))).join('');

describe('the code on the screen', () => {
  it('is read again at every size that there is', () => {
    // What fits each size at the lowest correction, in bytes (table 7 of the standard).
    const most = [17, 32, 53, 78, 106, 134, 154, 192, 230, 271, 321, 367, 425, 458, 520, 586, 644, 718, 792, 858, 929, 1003];
    most.forEach((bytes, i) => {
      const square = qrOf(new TextEncoder().encode(text(bytes)));
      expect(square?.length, `${bytes} bytes`).toBe(21 + 4 * i);
      expect(read(square ?? [])).toBe(text(bytes));
    });
    expect(qrOf(new Uint8Array(1004))).toBeNull();
  });
  it('carries a job there and back', async () => {
    const job = JSON.stringify({ format: 'lapwright-job/1', title: 'Scheune, Süd ½', slopes: [] }, null, 2);
    const letters = await packed(job);
    expect(letters).toMatch(/^[\w-]+$/);
    expect(JSON.parse((await unpacked(letters)) ?? '')).toEqual(JSON.parse(job));
    expect(await unpacked('nonsense')).toBeNull();
    expect(await unpacked('%%')).toBeNull();
  });
});
