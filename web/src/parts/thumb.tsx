// A small picture of a job, as the engine draws it: to be known again by, not to be read.
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Engine } from '../engine/engine';
import { useAnswer } from '../use';
import { shownIn } from './viewport';

const kRoom = { width: 70, height: 50 }; // mm

interface ThumbProps {
  engine: Engine;
  name: string; // asks again when it changes
  text: () => Promise<string | null>;
}

export function Thumb({ engine, name, text }: ThumbProps) {
  const host = useRef<HTMLDivElement>(null);
  const svg = useAnswer(name, async () => {
    const job = await text();
    const seen = job === null ? null : await engine.glance(job, kRoom);
    return [...(seen?.pictures ?? [])].find(([one]) => one.startsWith('roof/'))?.[1] ?? '';
  });
  useLayoutEffect(() => {
    const node = host.current;
    if (!node) return;
    node.innerHTML = svg ?? '';
    const drawn = node.querySelector('svg');
    if (!drawn) return;
    drawn.removeAttribute('width');
    drawn.removeAttribute('height');
    for (const words of drawn.querySelectorAll('title, text')) words.remove(); // too small to be read, and no one's name
    const { x, y, width, height } = shownIn(drawn);
    drawn.setAttribute('viewBox', `${x} ${y} ${width} ${height}`);
  }, [svg]);
  return <div ref={host} class="thumb sheet no-marks no-lengths" aria-hidden="true" />;
}
