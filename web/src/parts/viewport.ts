// What part of a drawing is seen: the viewBox of its SVG, moved by mouse, fingers and keys.
interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

const kAround = 3; // mm of paper

// What is drawn, without what is hidden.
export function shownIn(svg: SVGSVGElement): Box {
  const seen = svg.getBBox();
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

// With every measurement, so that the view stays when another one is asked for.
function seenIn(svg: SVGSVGElement): Box {
  svg.classList.add('measuring');
  const box = shownIn(svg);
  svg.classList.remove('measuring');
  return box;
}

// How what is drawn lies on its paper: mm of paper to a mm, and where its zero is.
interface Lies {
  left: number;
  top: number;
  scale: number;
}
function liesOf({ dataset: { left, top, scale } }: SVGSVGElement): Lies | null {
  if (left === undefined || top === undefined || scale === undefined) return null;
  return { left: Number(left), top: Number(top), scale: Number(scale) };
}

function boundsOf(things: SVGGraphicsElement[]): { left: number; top: number; right: number; bottom: number } | null {
  const boxes = things.map((one) => one.getBBox()).filter((one) => one.width > 0 || one.height > 0);
  if (boxes.length === 0) return null;
  return {
    left: Math.min(...boxes.map((one) => one.x)),
    top: Math.min(...boxes.map((one) => one.y)),
    right: Math.max(...boxes.map((one) => one.x + one.width)),
    bottom: Math.max(...boxes.map((one) => one.y + one.height)),
  };
}

const kStill = 7; // px: a pointer that moved less was a tap
const kNearest = 30;
const kBeside = 1.3; // of what is brought near, with the roof beside it
const kSeenAs = 56; // px: narrower, and it is a line
const kSeenIn = 84; // px: wider, and the roof about it is lost

export class Viewport {
  private svg: SVGSVGElement | null = null;
  private lies: Lies | null = null;
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
    private readonly zoomed: (pxPerMm: number, byHand: boolean) => void,
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

  // Another drawing; the same one again keeps its view, at whatever scale it is drawn now.
  take(svg: SVGSVGElement, name: string): void {
    const before = this.lies;
    this.svg = svg;
    this.all = seenIn(svg);
    this.lies = liesOf(svg);
    if (name !== this.name || this.isWhole || !before || !this.lies) {
      this.name = name;
      this.put(this.outer(), true);
      return;
    }
    const k = this.lies.scale / before.scale;
    this.put({
      x: (this.box.x + before.left) * k - this.lies.left,
      y: this.lies.top - (before.top - this.box.y) * k,
      width: this.box.width * k,
      height: this.box.height * k,
    });
    this.tell(false);
  }

  // All of it in what no button lies over; as wide and high as the place itself, which may reach under the buttons.
  private outer(): Box {
    const rect = this.node.getBoundingClientRect();
    const style = getComputedStyle(this.node.parentElement ?? this.node);
    const left = Math.max(0, -parseFloat(style.marginLeft) || 0);
    const right = Math.max(0, -parseFloat(style.marginRight) || 0);
    const free = rect.width - left - right;
    const { x, y, width, height } = this.all;
    if (free <= 0 || rect.height <= 0) return this.all;
    const mm = Math.max(width / free, height / rect.height); // to a px
    return {
      x: x - (free * mm - width) / 2 - left * mm,
      y: y - (rect.height * mm - height) / 2,
      width: rect.width * mm,
      height: rect.height * mm,
    };
  }

  whole(): void {
    this.put(this.outer(), true);
    this.tell();
  }

  // What a mm of the drawing's paper is on the screen by now.
  private tell(byHand = true): void {
    const matrix = this.svg?.getScreenCTM();
    if (matrix) this.zoomed(matrix.a, byHand);
  }

  // So near that the narrower side of these things has some width on the screen, from their lower end where all of them
  // would be too far away.
  // `marks`: what names them; where there are any they are in sight.
  bring(things: SVGGraphicsElement[], marks: SVGGraphicsElement[]): void {
    const rect = this.node.getBoundingClientRect();
    const around = boundsOf(things);
    if (rect.width === 0) return;
    if (!around) {
      this.whole();
      return;
    }
    const { left, top, right, bottom } = around;
    const named = boundsOf(marks);
    const { width: whole } = this.outer();
    const aspect = rect.height / rect.width;
    const narrow = Math.max(0.01, Math.min(right - left, bottom - top));
    // All of it with some roof beside it, but no farther away than where it is seen as a shape, and no nearer than where it
    // is seen to lie.
    const fits = Math.max(right - left, (bottom - top) / aspect) * kBeside;
    const wide = Math.min(Math.max(fits, (narrow * rect.width) / kSeenIn), (narrow * rect.width) / kSeenAs);
    const width = Math.min(whole, Math.max(wide, whole / kNearest));
    if (width >= whole) {
      this.whole();
      return;
    }
    const high = width * aspect;
    const x = right - left <= width ? (left + right) / 2 - width / 2 : left - (width * (kBeside - 1)) / 2;
    const foot = named ? (named.top + named.bottom) / 2 - high / 2 : bottom - high * 0.92;
    const y = bottom - top <= high ? (top + bottom) / 2 - high / 2 : foot;
    // Not past the drawing's own edges, as far as it reaches.
    const within = (at: number, size: number, from: number, most: number) =>
      size >= most ? at : Math.min(Math.max(at, from), from + most - size);
    this.put({
      x: within(x, width, this.all.x, this.all.width),
      y: within(y, high, this.all.y, this.all.height),
      width,
      height: high,
    });
    this.tell();
  }

  zoom(by: number, x?: number, y?: number): void {
    const rect = this.node.getBoundingClientRect();
    const at = this.inDrawing(x ?? rect.left + rect.width / 2, y ?? rect.top + rect.height / 2);
    if (!at) return;
    const whole = this.outer().width;
    const width = Math.min(whole, Math.max(whole / kNearest, this.box.width / by));
    const k = width / this.box.width;
    if (width >= whole) {
      this.whole();
      return;
    }
    this.put({
      x: at.x - (at.x - this.box.x) * k,
      y: at.y - (at.y - this.box.y) * k,
      width,
      height: this.box.height * k,
    });
    this.tell();
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
