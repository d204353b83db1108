// Of calls that come faster than they are answered, runs one and keeps only the newest waiting.
export class Latest<In, Out> {
  private busy = false;
  private waiting: { value: In; done: (out: Out | null) => void; failed: (error: unknown) => void } | null = null;

  constructor(private readonly run: (value: In) => Promise<Out | null>) {}

  // Null when a newer call overtook this one.
  ask(value: In): Promise<Out | null> {
    return new Promise((done, failed) => {
      this.waiting?.done(null);
      this.waiting = { value, done, failed };
      void this.turn();
    });
  }

  private async turn(): Promise<void> {
    if (this.busy || !this.waiting) return;
    const { value, done, failed } = this.waiting;
    this.waiting = null;
    this.busy = true;
    try {
      done(await this.run(value));
    } catch (error) {
      failed(error);
    } finally {
      this.busy = false;
      void this.turn();
    }
  }
}
