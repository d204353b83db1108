// A QR code (ISO/IEC 18004, model 2) of bytes at the lowest correction level: the square of dark and light that another
// phone's camera reads off the screen. Sizes beyond `kMostVersion` are too fine for a screen.
const kMostVersion = 22; // 105 modules: three pixels each on a small phone

// Level L, by version: words of correction in a block, and blocks. Table 9 of the standard.
const kCorrection = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28];
const kBlocks = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9];

// Arithmetic of bytes modulo x⁸ + x⁴ + x³ + x² + 1.
const kExp = new Uint8Array(512);
const kLog = new Uint8Array(256);
for (let i = 0, x = 1; i < 255; i += 1) {
  kExp[i] = x;
  kLog[x] = i;
  x = (x << 1) ^ (x & 0x80 ? 0x11d : 0);
}
for (let i = 255; i < 512; i += 1) kExp[i] = kExp[i - 255]!;
const times = (a: number, b: number): number => (a === 0 || b === 0 ? 0 : kExp[kLog[a]! + kLog[b]!]!);

function correctionOf(data: number[], words: number): number[] {
  let generator = [1];
  for (let i = 0; i < words; i += 1) {
    const next: number[] = Array<number>(generator.length + 1).fill(0);
    generator.forEach((g, k) => {
      next[k]! ^= g;
      next[k + 1]! ^= times(g, kExp[i]!);
    });
    generator = next;
  }
  const rest: number[] = Array<number>(words).fill(0);
  for (const word of data) {
    const lead = word ^ rest.shift()!;
    rest.push(0);
    for (let k = 0; k < words; k += 1) rest[k]! ^= times(generator[k + 1]!, lead);
  }
  return rest;
}

const sizeOf = (version: number): number => 17 + 4 * version;

// Centres of the small squares, both ways: as many as the version's sevens ask for, an even distance apart, measured from
// the far side; the first lies on the timing line. Annex E.
function alignmentOf(version: number): number[] {
  if (version < 2) return [];
  const far = sizeOf(version) - 7;
  const gaps = 1 + Math.floor(version / 7);
  const apart = 2 * Math.ceil((far - 6) / gaps / 2);
  return [6, ...Array.from({ length: gaps }, (_, i) => far - (gaps - 1 - i) * apart)];
}

// Modules that hold words, whatever they say: those that no pattern takes.
const wordsOf = (version: number): number => Math.floor(new Square(version).free / 8);

const dataWords = (version: number): number => wordsOf(version) - kCorrection[version - 1]! * kBlocks[version - 1]!;
const headBits = (version: number): number => 4 + (version < 10 ? 8 : 16);

function bitsOf(bytes: Uint8Array, version: number): number[] {
  const bits: number[] = [];
  const put = (value: number, count: number) => {
    for (let i = count - 1; i >= 0; i -= 1) bits.push((value >> i) & 1);
  };
  put(4, 4); // bytes
  put(bytes.length, headBits(version) - 4);
  for (const byte of bytes) put(byte, 8);
  const room = dataWords(version) * 8;
  put(0, Math.min(4, room - bits.length));
  put(0, (8 - (bits.length % 8)) % 8);
  for (let pad = 0xec; bits.length < room; pad ^= 0xec ^ 0x11) put(pad, 8);
  return bits;
}

// In blocks, each with its correction, word by word from every block in turn.
function interleaved(bits: number[], version: number): number[] {
  const words: number[] = [];
  for (let i = 0; i < bits.length; i += 8) words.push(bits.slice(i, i + 8).reduce((all, bit) => all * 2 + bit, 0));
  const blocks = kBlocks[version - 1]!;
  const correction = kCorrection[version - 1]!;
  const short = Math.floor(wordsOf(version) / blocks) - correction;
  const longer = wordsOf(version) % blocks; // that many blocks hold one word more
  const data: number[][] = [];
  for (let i = 0, at = 0; i < blocks; i += 1) {
    const length = short + (i < blocks - longer ? 0 : 1);
    data.push(words.slice(at, at + length));
    at += length;
  }
  const out: number[] = [];
  for (let k = 0; k <= short; k += 1) for (const block of data) if (k < block.length) out.push(block[k]!);
  const checks = data.map((block) => correctionOf(block, correction));
  for (let k = 0; k < correction; k += 1) for (const block of checks) out.push(block[k]!);
  return out;
}

class Square {
  readonly dark: boolean[][];
  private readonly fixed: boolean[][];

  constructor(readonly version: number) {
    const size = sizeOf(version);
    this.dark = Array.from({ length: size }, () => Array<boolean>(size).fill(false));
    this.fixed = Array.from({ length: size }, () => Array<boolean>(size).fill(false));
    this.drawPatterns();
  }
  get size(): number {
    return this.dark.length;
  }

  get free(): number {
    return this.fixed.flat().filter((taken) => !taken).length;
  }

  private set(x: number, y: number, dark: boolean): void {
    if (x < 0 || y < 0 || x >= this.size || y >= this.size) return;
    this.dark[y]![x] = dark;
    this.fixed[y]![x] = true;
  }

  private drawPatterns(): void {
    const { size } = this;
    for (let i = 0; i < size; i += 1) {
      this.set(6, i, i % 2 === 0);
      this.set(i, 6, i % 2 === 0);
    }
    for (const [cx, cy] of [[3, 3], [size - 4, 3], [3, size - 4]] as const) {
      for (let dy = -4; dy <= 4; dy += 1) {
        for (let dx = -4; dx <= 4; dx += 1) {
          const far = Math.max(Math.abs(dx), Math.abs(dy));
          this.set(cx + dx, cy + dy, far !== 2 && far !== 4);
        }
      }
    }
    const places = alignmentOf(this.version);
    places.forEach((cx, i) => {
      places.forEach((cy, k) => {
        const last = places.length - 1;
        if ((i === 0 && k === 0) || (i === 0 && k === last) || (i === last && k === 0)) return;
        for (let dy = -2; dy <= 2; dy += 1) {
          for (let dx = -2; dx <= 2; dx += 1) this.set(cx + dx, cy + dy, Math.max(Math.abs(dx), Math.abs(dy)) !== 1);
        }
      });
    });
    this.drawFormat(0);
    if (this.version < 7) return;
    let rest = this.version;
    for (let i = 0; i < 12; i += 1) rest = (rest << 1) ^ ((rest >> 11) * 0x1f25);
    const bits = (this.version << 12) | rest;
    for (let i = 0; i < 18; i += 1) {
      const dark = ((bits >> i) & 1) === 1;
      const a = size - 11 + (i % 3);
      const b = Math.floor(i / 3);
      this.set(a, b, dark);
      this.set(b, a, dark);
    }
  }

  private drawFormat(mask: number): void {
    const { size } = this;
    const data = (1 << 3) | mask; // level L
    let rest = data;
    for (let i = 0; i < 10; i += 1) rest = (rest << 1) ^ ((rest >> 9) * 0x537);
    const bits = ((data << 10) | rest) ^ 0x5412;
    const bit = (i: number) => ((bits >> i) & 1) === 1;
    for (let i = 0; i <= 5; i += 1) this.set(8, i, bit(i));
    this.set(8, 7, bit(6));
    this.set(8, 8, bit(7));
    this.set(7, 8, bit(8));
    for (let i = 9; i < 15; i += 1) this.set(14 - i, 8, bit(i));
    for (let i = 0; i < 8; i += 1) this.set(size - 1 - i, 8, bit(i));
    for (let i = 8; i < 15; i += 1) this.set(8, size - 15 + i, bit(i));
    this.set(8, size - 8, true);
  }

  // Up and down in columns of two, from the right.
  fill(words: number[]): void {
    const bits = words.flatMap((word) => Array.from({ length: 8 }, (_, i) => ((word >> (7 - i)) & 1) === 1));
    const rows = Array.from({ length: this.size }, (_, y) => y);
    // The column of the timing line is passed over.
    const columns = rows.filter((x) => x !== 6).reverse();
    let at = 0;
    for (let pair = 0; pair < columns.length; pair += 2) {
      const down = (pair / 2) % 2 === 1;
      for (const y of down ? rows : [...rows].reverse()) {
        for (const x of columns.slice(pair, pair + 2)) {
          if (this.fixed[y]![x]) continue;
          this.dark[y]![x] = bits[at] ?? false;
          at += 1;
        }
      }
    }
  }

  mask(which: number): void {
    const flips: ((x: number, y: number) => boolean)[] = [
      (x, y) => (x + y) % 2 === 0,
      (_, y) => y % 2 === 0,
      (x) => x % 3 === 0,
      (x, y) => (x + y) % 3 === 0,
      (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2 === 0,
      (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
      (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
      (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
    ];
    for (let y = 0; y < this.size; y += 1) {
      for (let x = 0; x < this.size; x += 1) if (!this.fixed[y]![x] && flips[which]!(x, y)) this.dark[y]![x] = !this.dark[y]![x];
    }
    this.drawFormat(which);
  }

  // How ill a camera reads it: long runs, blocks, and far from half dark. What looks like a finder is left to the others.
  penalty(): number {
    const { size, dark } = this;
    let out = 0;
    let black = 0;
    for (let a = 0; a < size; a += 1) {
      for (const at of [(i: number) => dark[a]![i]!, (i: number) => dark[i]![a]!]) {
        let run = 1;
        for (let i = 1; i <= size; i += 1) {
          if (i < size && at(i) === at(i - 1)) {
            run += 1;
          } else {
            if (run >= 5) out += run - 2;
            run = 1;
          }
        }
      }
      for (let b = 0; b < size; b += 1) {
        if (dark[a]![b]) black += 1;
        if (a + 1 < size && b + 1 < size && dark[a]![b] === dark[a]![b + 1] && dark[a]![b] === dark[a + 1]![b] && dark[a]![b] === dark[a + 1]![b + 1]) out += 3;
      }
    }
    return out + 10 * Math.floor(Math.abs((black / (size * size)) * 20 - 10));
  }
}

// Rows of dark (true) and light; null: more than fits a screen.
export function qrOf(bytes: Uint8Array): boolean[][] | null {
  let version = 1;
  while (version <= kMostVersion && bytes.length * 8 + headBits(version) > dataWords(version) * 8) version += 1;
  if (version > kMostVersion) return null;
  const words = interleaved(bitsOf(bytes, version), version);
  let best: Square | null = null;
  let least = Infinity;
  for (let which = 0; which < 8; which += 1) {
    const square = new Square(version);
    square.fill(words);
    square.mask(which);
    const penalty = square.penalty();
    if (penalty < least) {
      least = penalty;
      best = square;
    }
  }
  return best?.dark ?? null;
}
