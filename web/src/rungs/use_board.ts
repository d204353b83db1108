// A screen that shows the bench: the yard, the board, and a plan asked for whenever one of them or the job changes.
import { useEffect, useLayoutEffect, useReducer } from 'preact/hooks';
import type { Session } from '../session';
import { boardOf, type Board } from './board';
import { yardBook, type YardBook } from './yard_book';

function useHeard(things: { listen(heard: () => void): () => void }[]): void {
  const [, again] = useReducer((n: number) => n + 1, 0);
  useLayoutEffect(() => {
    again(undefined);
    const ends = things.map((thing) => thing.listen(() => again(undefined)));
    return () => ends.forEach((end) => end());
  }, things);
}

export function useYard(session: Session): YardBook {
  const book = yardBook(session.engine);
  useHeard([book]);
  return book;
}

export function useBoard(session: Session, rolls = 0): { board: Board; book: YardBook } {
  const book = yardBook(session.engine);
  const board = boardOf(session);
  useHeard([book, board]);
  const job = session.readableText;
  const yard = book.faults.length === 0 ? book.text : '';
  // A screen that draws no rolls is content with those that were drawn.
  const width = rolls > 0 ? rolls : (board.of?.rolls ?? 240);
  useEffect(() => {
    board.want({ job, yard, rolls: width });
  }, [board, job, yard, width]);
  return { board, book };
}
