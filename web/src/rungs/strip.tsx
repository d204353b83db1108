// One roll to scale, as the engine draws it: longer than a phone is wide, so it is pushed along under the finger.
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';

interface Props {
  svg: string;
  label: string;
  lit: (index: number, mark: string) => boolean;
  onPiece: (mark: string) => void;
}

const pieceOf = (element: Element): { index: number; mark: string } | null => {
  const [kind, , index, ...mark] = (element.getAttribute('data-tag') ?? '').split('/');
  return kind === 'cut' ? { index: Number(index), mark: mark.join('/') } : null;
};

export function Strip({ svg, label, lit, onPiece }: Props) {
  const host = useRef<HTMLDivElement>(null);
  const latest = useRef(onPiece);
  latest.current = onPiece;
  useLayoutEffect(() => {
    const node = host.current;
    if (!node) return undefined;
    node.innerHTML = svg;
    const drawn = node.querySelector('svg');
    drawn?.setAttribute('aria-hidden', 'true');
    drawn?.querySelector('title')?.remove();
    const pressed = (event: MouseEvent) => {
      const on = event.target instanceof Element ? event.target.closest('[data-tag^="cut/"]') : null;
      const piece = on && pieceOf(on);
      if (piece) latest.current(piece.mark);
    };
    node.addEventListener('click', pressed);
    return () => node.removeEventListener('click', pressed);
  }, [svg]);
  useEffect(() => {
    for (const element of host.current?.querySelectorAll('[data-tag^="cut/"]') ?? []) {
      const piece = pieceOf(element);
      element.classList.toggle('lit', piece !== null && lit(piece.index, piece.mark));
    }
  });
  return <div class="strip" ref={host} role="img" aria-label={label} tabIndex={0} data-engine />;
}
