// What part of a drawing is seen: the viewBox of its SVG, moved by mouse, fingers and keys.
interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

const kAround = 3; // mm of paper

// What is drawn, without what is hidden; with every measurement, so that the view stays when another one is asked for.
function seenIn(svg: SVGSVGElement): Box {
  svg.classList.add('measuring');
  const seen = svg.getBBox();
  svg.classList.remove('measuring');
  if (seen.width <= 0 || seen.height <= 0) {
    const { x, y, width, height } = svg.viewBox.baseVal;
    return { x, y, width, height };
  }
  return {
    x: seen.x - kAround,
    y: seen.y - kAround,
    width: seen.width + 2 * kAround,
    height: seen.height + 2 * kAround,
  };
}

const kStill = 7; // px: a pointer that moved less was a tap
const kNearest = 30;
const kBeside = 1.3; // of what is brought near, with the roof beside it
const kSeenAs = 56; // px: narrower, and it is a line

export class Viewport {
  private svg: SVGSVGElement | null = null;
  private name = '';
  private all: Box = { x: 0, y: 0, width: 1, height: 1 };
  private box: Box = this.all;
  private isWhole = true;
  private readonly down = new Map<number, { x: number; y: number }>();
  private moved = 0;
  private readonly ending = new AbortController();

  constructor(
    private readonly node: HTMLElement,
    private readonly tapped: (x: number, y: number) => void,
    private readonly changed: (isWhole: boolean) => void,
  ) {
    const { signal } = this.ending;
    node.addEventListener('pointerdown', (event) => this.press(event), { signal });
    node.addEventListener('pointermove', (event) => this.move(event), { signal });
    node.addEventListener('pointerup', (event) => this.lift(event, true), { signal });
    node.addEventListener('pointercancel', (event) => this.lift(event, false), { signal });
    node.addEventListener(
      'wheel',
      (event) => {
        event.preventDefault();
        this.zoom(Math.exp(-event.deltaY / 400), event.clientX, event.clientY);
      },
      { signal, passive: false },
    );
  }

  end(): void {
    this.ending.abort();
  }

  // Another drawing; the same one again keeps its view.
  take(svg: SVGSVGElement, name: string): void {
    const before = this.all;
    this.svg = svg;
    this.all = seenIn(svg);
    const { width } = this.all;
    if (name !== this.name || this.isWhole || before.width <= 0) {
      this.name = name;
      this.whole();
      return;
    }
    const k = width / before.width;
    this.put({
      x: this.all.x + (this.box.x - before.x) * k,
      y: this.all.y + (this.box.y - before.y) * k,
      width: this.box.width * k,
      height: this.box.height * k,
    });
  }

  whole(): void {
    this.put(this.all, true);
  }

  // So near that the narrower side of these things has some width on the screen, from their lower end where all of them
  // would be too far away.
  bring(things: SVGGraphicsElement[]): void {
    const rect = this.node.getBoundingClientRect();
    const boxes = things.map((one) => one.getBBox()).filter((one) => one.width > 0 || one.height > 0);
    if (boxes.length === 0 || rect.width === 0) return;
    const left = Math.min(...boxes.map((one) => one.x));
    const top = Math.min(...boxes.map((one) => one.y));
    const right = Math.max(...boxes.map((one) => one.x + one.width));
    const bottom = Math.max(...boxes.map((one) => one.y + one.height));
    const { width: whole, height: wholeHigh } = this.all;
    const aspect = rect.height / rect.width;
    const narrow = Math.max(0.01, Math.min(right - left, bottom - top));
    // All of it with some roof beside it, but no farther away than where it is seen as a shape, and no nearer than a thumb.
    const fits = Math.max(right - left, (bottom - top) / aspect) * kBeside;
    const shape = (narrow * rect.width) / kSeenAs;
    const width = Math.min(Math.max(whole, wholeHigh / aspect), Math.max(Math.min(fits, shape), whole / kNearest));
    if (width >= Math.max(whole, wholeHigh / aspect)) {
      this.whole();
      return;
    }
    const high = width * aspect;
    const x = right - left <= width ? (left + right) / 2 - width / 2 : left - (width * (kBeside - 1)) / 2;
    const y = bottom - top <= high ? (top + bottom) / 2 - high / 2 : bottom - high * 0.92;
    this.put({ x, y, width, height: high });
  }

  zoom(by: number, x?: number, y?: number): void {
    const rect = this.node.getBoundingClientRect();
    const at = this.inDrawing(x ?? rect.left + rect.width / 2, y ?? rect.top + rect.height / 2);
    if (!at) return;
    const most = this.all.width / kNearest;
    const width = Math.min(this.all.width, Math.max(most, this.box.width / by));
    const k = width / this.box.width;
    if (width >= this.all.width) {
      this.whole();
      return;
    }
    this.put({
      x: at.x - (at.x - this.box.x) * k,
      y: at.y - (at.y - this.box.y) * k,
      width,
      height: this.box.height * k,
    });
  }

  key(key: string): boolean {
    const step = 0.12;
    const moves: Record<string, [number, number]> = {
      ArrowLeft: [-step, 0],
      ArrowRight: [step, 0],
      ArrowUp: [0, -step],
      ArrowDown: [0, step],
    };
    const move = moves[key];
    if (move && !this.isWhole) {
      this.put({ ...this.box, x: this.box.x + move[0] * this.box.width, y: this.box.y + move[1] * this.box.height });
      return true;
    }
    if (key === '+' || key === '=') this.zoom(1.4);
    else if (key === '-') this.zoom(1 / 1.4);
    else if (key === '0') this.whole();
    else return false;
    return true;
  }

  private put(box: Box, isWhole = false): void {
    if (isWhole !== this.isWhole) this.changed(isWhole);
    this.isWhole = isWhole;
    this.box = box;
    this.svg?.setAttribute('viewBox', `${box.x} ${box.y} ${box.width} ${box.height}`);
  }

  private inDrawing(x: number, y: number): { x: number; y: number } | null {
    const matrix = this.svg?.getScreenCTM();
    return matrix ? new DOMPoint(x, y).matrixTransform(matrix.inverse()) : null;
  }

  private press(event: PointerEvent): void {
    if (this.down.size === 0) this.moved = 0;
    this.down.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }

  private move(event: PointerEvent): void {
    const was = this.down.get(event.pointerId);
    if (!was) return;
    const is = { x: event.clientX, y: event.clientY };
    this.moved += Math.hypot(is.x - was.x, is.y - was.y);
    if (this.moved < kStill) return;
    this.node.setPointerCapture(event.pointerId);
    const other = [...this.down.entries()].find(([id]) => id !== event.pointerId)?.[1];
    if (other) {
      const apart = (p: { x: number; y: number }) => Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
      this.zoom(apart(is) / apart(was), (is.x + other.x) / 2, (is.y + other.y) / 2);
    } else if (!this.isWhole) {
      const from = this.inDrawing(was.x, was.y);
      const to = this.inDrawing(is.x, is.y);
      if (from && to) this.put({ ...this.box, x: this.box.x + from.x - to.x, y: this.box.y + from.y - to.y });
    }
    this.down.set(event.pointerId, is);
  }

  private lift(event: PointerEvent, here: boolean): void {
    if (!this.down.delete(event.pointerId)) return;
    if (here && this.down.size === 0 && this.moved < kStill) this.tapped(event.clientX, event.clientY);
  }
}
