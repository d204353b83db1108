// Undo and redo of whole states. Changes under one label that follow each other soon are one step: a number is typed in
// several keystrokes and undone at once.
const kTogether = 1500; // ms
const kMost = 200;

export class History<State> {
  private past: State[] = [];
  private future: State[] = [];
  private label = '';
  private last = -Infinity;

  constructor(private now_: State) {}

  get now(): State {
    return this.now_;
  }
  get canUndo(): boolean {
    return this.past.length > 0;
  }
  get canRedo(): boolean {
    return this.future.length > 0;
  }

  put(state: State, label: string, time: number): void {
    const together = label !== '' && label === this.label && time - this.last < kTogether;
    if (!together) {
      this.past.push(this.now_);
      if (this.past.length > kMost) this.past.shift();
    }
    this.now_ = state;
    this.future = [];
    this.label = label;
    this.last = time;
  }

  undo(): void {
    const state = this.past.pop();
    if (state === undefined) return;
    this.future.push(this.now_);
    this.now_ = state;
    this.label = '';
  }

  redo(): void {
    const state = this.future.pop();
    if (state === undefined) return;
    this.past.push(this.now_);
    this.now_ = state;
    this.label = '';
  }
}
