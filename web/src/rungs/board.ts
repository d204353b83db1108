// The bench of one open job: its latest cutting list, with the plan that it belongs to, its price and its papers. All
// rungs below the lead read the same one, so that what is shown, ticked and printed is one list.
import type { Fault, PaperFile, PaperSize, Planned, Planning } from '../engine/engine';
import type { Plan } from '../generated/plan';
import type { Session } from '../session';
import { yardBook } from './yard_book';

export interface Ask {
  job: string;
  yard: string;
  rolls: number; // mm of screen
}

export interface Papers {
  of: Ask;
  size: PaperSize;
  only: string;
  files: PaperFile[];
  pages: ReadonlyMap<string, string[]>;
}

// Seconds of looking, step by step.
export const kEfforts = [0, 1, 4, 15, 60];

const same = (a: Ask, b: Ask): boolean => a.job === b.job && a.yard === b.yard && Math.abs(a.rolls - b.rolls) < 2;

export class Board {
  planned: Planned | null = null; // the last one that could be read
  of: Ask | null = null; // what it was made of
  faults: Fault[] = []; // of the last ask, when it could not be read
  going: { share: number; whole: boolean; papers: boolean } | null = null;
  failed = false;
  papers: Papers | null = null;
  effort = 0; // how hard it was looked last, a place in kEfforts
  private shown = 0; // and for the list that is shown
  private asked: Ask | null = null;
  private wish: { only: string; size: PaperSize } | null = null;
  private planning: Planning | null = null;
  private readonly heard = new Set<() => void>();

  constructor(private readonly session: Session) {}

  get plan(): Plan | null {
    return this.planned?.plan ?? null;
  }
  get canTryHarder(): boolean {
    return this.effort < kEfforts.length - 1;
  }

  // Plans with the first whole cutting list, unless that stands or is under way.
  want(ask: Ask): void {
    if (ask.job === '' || ask.yard === '') return;
    if (this.asked && same(this.asked, ask)) return;
    // Papers that are being made of this very job and yard are not ended for another size of screen.
    if (this.going?.papers && this.asked?.job === ask.job && this.asked.yard === ask.yard) return;
    // Another size of screen keeps how hard it was looked; another job or yard does not.
    if (!this.asked || this.asked.job !== ask.job || this.asked.yard !== ask.yard) this.effort = 0;
    this.asked = ask;
    const { wish } = this;
    this.wish = null;
    void this.run(ask, this.effort, wish ?? undefined);
  }
  tryHarder(): void {
    if (!this.asked || !this.canTryHarder) return;
    this.effort += 1;
    void this.run(this.asked, this.effort);
  }
  // With what there is.
  stop(): void {
    this.planning?.stop();
  }
  // The papers of the list that is shown: as hard a look as that one had.
  make(only: string, size: PaperSize): void {
    if (this.asked) {
      void this.run(this.asked, this.shown, { only, size });
      return;
    }
    // Nothing is known of the yard yet: they are made as soon as it is.
    this.wish = { only, size };
    this.going = { share: 0, whole: false, papers: true };
    this.tell();
  }
  cancelPapers(): void {
    if (this.wish) {
      this.wish = null;
      this.going = null;
      this.tell();
    }
    this.session.engine.cancelPlan();
  }

  listen(heard: () => void): () => void {
    this.heard.add(heard);
    return () => this.heard.delete(heard);
  }

  private async run(ask: Ask, step: number, papers?: { only: string; size: PaperSize }): Promise<void> {
    this.going = { share: 0, whole: false, papers: papers !== undefined };
    this.failed = false;
    const planning = this.session.engine.plan(
      { ...ask, effort: kEfforts[step] ?? 0, ...(papers ? { papers: { ...papers, pages: true } } : {}) },
      (share, whole) => {
        if (this.planning !== planning) return;
        this.going = { share, whole, papers: papers !== undefined };
        this.tell();
      },
    );
    this.planning = planning;
    this.tell();
    try {
      const planned = await planning.planned;
      if (this.planning !== planning) return;
      if (planned) {
        this.faults = planned.faults;
        if (planned.plan && (papers || !this.isDearer(planned.plan, ask))) {
          this.shown = step;
          this.planned = planned;
          this.of = ask;
          const { cutting } = planned.plan;
          this.session.cut = cutting ? { job: ask.job, state: (cutting.refused ?? []).length > 0 ? 'doubt' : 'filled' } : null;
          if (papers) this.papers = { of: ask, ...papers, files: planned.papers, pages: planned.pages };
        }
      } else if (!papers) {
        this.asked = null; // asked for again when it is looked at again
      }
    } catch {
      if (this.planning !== planning) return;
      this.failed = true;
    }
    this.planning = null;
    this.going = null;
    // The first whole list is there at once; a second's look is worth waiting for, with that one in sight.
    if (step === 0 && !papers && !this.failed && this.of && same(this.of, ask) && this.plan?.cutting) this.tryHarder();
    else this.tell();
  }

  // A look that was ended early may have found less than the one before it: that one stays.
  private isDearer(plan: Plan, ask: Ask): boolean {
    const before = this.of && same(this.of, ask) ? this.plan?.cutting : undefined;
    return before !== undefined && (plan.cutting?.refused ?? []).length >= (before.refused ?? []).length && (plan.cutting?.cost ?? 0) > (before.cost ?? 0) + 0.005;
  }

  private tell(): void {
    for (const heard of this.heard) heard();
  }
}

const boards = new WeakMap<Session, Board>();

export function boardOf(session: Session): Board {
  let board = boards.get(session);
  if (!board) {
    board = new Board(session);
    boards.set(session, board);
    yardBook(session.engine);
  }
  return board;
}

// For the ladder, which has no need of a board where there is none yet.
export const boardIfAny = (session: Session): Board | undefined => boards.get(session);
