// Windows that have the same page open tell each other what they saved.
export interface Word {
  id: string;
  revision: string;
}

export class Windows {
  private readonly channel = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('lapwright');

  tell(word: Word): void {
    this.channel?.postMessage(word);
  }

  // Returns how to stop listening.
  listen(heard: (word: Word) => void): () => void {
    const take = (event: MessageEvent<Word>) => heard(event.data);
    this.channel?.addEventListener('message', take);
    return () => this.channel?.removeEventListener('message', take);
  }
}
