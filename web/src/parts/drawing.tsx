// A drawing of the engine's: panned, pinched, zoomed, tapped. It knows tags, and nothing of roofs.
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { say } from '../words/words';
import { Viewport } from './viewport';

export interface DrawingProps {
  svg: string;
  name: string; // of the picture: the view is kept while it stays the same
  label: string;
  look: string; // class names: which kinds of things are hidden
  // The class of what carries this tag; empty for none.
  mark: (tag: string) => string;
  onTags?: (tags: string[]) => void;
  onPlace?: ((u: number, s: number) => void) | undefined;
  near?: Near;
  // How many times nearer than whole it is looked at: the engine draws it anew for that, so that lines and type keep
  // their size and more is seen.
  onZoom?: (nearer: number) => void;
  nearer?: number; // what this picture was drawn for
}

const kPxPerMm = 96 / 25.4;
const kPause = 120; // ms after the fingers rest
const kNearest = 40;
const kFirstGuess = 0.7; // of the room about what is drawn takes no part in drawing it larger

// What is brought near at first, and again whenever `key` changes: the things with such a tag.
export interface Near {
  key: string;
  has: (tag: string) => boolean;
}

const kFinger = 14; // px around a tap in which something may be meant

function tagsNear(host: Element, x: number, y: number): string[] {
  const found: string[] = [];
  const rings: [number, number][] = [[0, 0]];
  for (const far of [kFinger / 2, kFinger]) {
    for (let i = 0; i < 8; i += 1) rings.push([far * Math.cos((i * Math.PI) / 4), far * Math.sin((i * Math.PI) / 4)]);
  }
  for (const [dx, dy] of rings) {
    for (const element of document.elementsFromPoint(x + dx, y + dy)) {
      const tag = host.contains(element) ? element.getAttribute('data-tag') : null;
      if (tag && !found.includes(tag)) found.push(tag);
    }
  }
  return found;
}

function placeAt(svg: SVGSVGElement, x: number, y: number): { u: number; s: number } | null {
  const matrix = svg.getScreenCTM();
  const { left, top, scale } = svg.dataset;
  if (!matrix || left === undefined || top === undefined || scale === undefined) return null;
  const at = new DOMPoint(x, y).matrixTransform(matrix.inverse());
  return { u: (at.x + Number(left)) / Number(scale), s: (Number(top) - at.y) / Number(scale) };
}

export function Drawing(props: DrawingProps) {
  const host = useRef<HTMLDivElement>(null);
  const view = useRef<Viewport | null>(null);
  const [isWhole, setWhole] = useState(true);
  const asked = useRef(1);
  const shownName = useRef(props.name);
  const resting = useRef(0);
  const brought = useRef('');
  const latest = useRef(props);
  latest.current = props;

  useLayoutEffect(() => {
    const node = host.current;
    if (!node) return undefined;
    const tapped = (x: number, y: number) => {
      const svg = node.querySelector('svg');
      const { onPlace, onTags } = latest.current;
      const place = svg && onPlace ? placeAt(svg, x, y) : null;
      if (place) onPlace?.(place.u, place.s);
      else onTags?.(tagsNear(node, x, y));
    };
    // Type round a drawing does not grow with it, so that the first guess of its size is mended once or twice.
    let mended = 0;
    const zoomed = (pxPerMm: number, byHand: boolean) => {
      mended = byHand ? 0 : mended + 1;
      if (mended > 2) return;
      clearTimeout(resting.current);
      resting.current = window.setTimeout(() => {
        const { onZoom, nearer: drawn = 1 } = latest.current;
        const by = pxPerMm / kPxPerMm;
        const nearer = Math.min(kNearest, Math.max(1, drawn * (drawn === 1 ? 1 + (by - 1) * kFirstGuess : by)));
        if (!onZoom || Math.abs(nearer / asked.current - 1) < 0.12) return;
        asked.current = nearer;
        onZoom(nearer);
      }, byHand ? kPause : 0);
    };
    const viewport = new Viewport(node, tapped, setWhole, zoomed);
    view.current = viewport;
    return () => {
      clearTimeout(resting.current);
      if (asked.current !== 1) latest.current.onZoom?.(1);
      viewport.end();
    };
  }, []);

  useLayoutEffect(() => {
    const node = host.current;
    if (!node) return;
    node.innerHTML = props.svg;
    const svg = node.querySelector('svg');
    if (!svg) return;
    // Sized by its box; the name is the group's.
    svg.removeAttribute('width');
    svg.removeAttribute('height');
    svg.setAttribute('aria-hidden', 'true');
    svg.querySelector('title')?.remove();
    if (props.name !== shownName.current && asked.current !== 1) {
      asked.current = 1;
      props.onZoom?.(1);
    }
    shownName.current = props.name;
    view.current?.take(svg, props.name);
    const { near } = latest.current;
    const wanted = near ? `${props.name} ${near.key}` : '';
    if (near && wanted !== brought.current) {
      brought.current = wanted;
      const things = [...svg.querySelectorAll<SVGGraphicsElement>('[data-tag]')].filter((one) => near.has(one.dataset.tag ?? ''));
      const isMark = (one: SVGGraphicsElement) => (one.dataset.tag ?? '').startsWith('mark/');
      view.current?.bring(things.filter((one) => !isMark(one)), things.filter(isMark));
    }
  }, [props.svg, props.look, props.name, props.near?.key]);

  useEffect(() => {
    for (const element of host.current?.querySelectorAll('[data-tag]') ?? []) {
      const is = props.mark(element.getAttribute('data-tag') ?? '');
      const was = element.getAttribute('data-mark') ?? '';
      if (is === was) continue;
      if (was) element.classList.remove(...was.split(' '));
      if (is) element.classList.add(...is.split(' '));
      element.setAttribute('data-mark', is);
    }
  });

  const keys = (event: KeyboardEvent) => {
    if (view.current?.key(event.key)) event.preventDefault();
  };

  return (
    <div class="drawing">
      <div
        ref={host}
        class={`sheet ${props.look}`}
        role="img"
        aria-label={props.label}
        tabIndex={0}
        onKeyDown={keys}
        data-picture={props.name}
      />
      <div class="zoom" role="group" aria-label={say('drawing.zoom')}>
        <button type="button" onClick={() => view.current?.zoom(1.4)} aria-label={say('drawing.nearer')}>+</button>
        <button type="button" onClick={() => view.current?.zoom(1 / 1.4)} aria-label={say('drawing.further')}>−</button>
        {!isWhole && <button type="button" onClick={() => view.current?.whole()}>{say('drawing.whole')}</button>}
      </div>
    </div>
  );
}
