// Hooks: the address, an open job, the size of an element, a call that is under way.
import { useEffect, useLayoutEffect, useReducer, useRef, useState } from 'preact/hooks';
import type { RefObject } from 'preact';
import { routeOf, type Route } from './route';
import type { Session } from './session';

export function useRoute(): Route {
  const [route, put] = useState(() => routeOf(location.hash));
  // Before the first paint: an address that changes until somebody listens would be lost.
  useLayoutEffect(() => {
    const heard = () => put(routeOf(location.hash));
    addEventListener('hashchange', heard);
    return () => removeEventListener('hashchange', heard);
  }, []);
  return route;
}

// Drawn again whenever the job or what is known of it changes.
export function useSession(session: Session): void {
  const [, again] = useReducer((n: number) => n + 1, 0);
  useLayoutEffect(() => {
    again(undefined); // what came between the first drawing and now
    return session.listen(() => again(undefined));
  }, [session]);
}

const kPxPerMm = 96 / 25.4;

// The element's size in mm at the size that it is shown.
export function useRoom(element: RefObject<HTMLElement | null>, heard: (width: number, height: number) => void): void {
  const told = useRef(heard);
  told.current = heard;
  useLayoutEffect(() => {
    const node = element.current;
    if (!node) return undefined;
    const look = () => {
      const { paddingLeft, paddingRight, paddingTop, paddingBottom } = getComputedStyle(node);
      const wide = node.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight);
      const high = node.clientHeight - parseFloat(paddingTop) - parseFloat(paddingBottom);
      told.current(wide / kPxPerMm, high / kPxPerMm);
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(node);
    return () => observer.disconnect();
  }, [element]);
}

// What a promise gave; null until then, and again when `key` changes. The last answer stays until the next is there.
export function useAnswer<T>(key: string, ask: () => Promise<T>): T | null {
  const [answer, put] = useState<T | null>(null);
  useEffect(() => {
    let wanted = true;
    void ask().then(
      (value) => {
        if (wanted) put(value);
      },
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [key]);
  return answer;
}
