// The service worker: registered where there can be one, and a new version offered, never forced.
import { isSingleFile } from './engine/parts';

export function keepOffline(offer: (take: () => void) => void): void {
  if (isSingleFile() || !('serviceWorker' in navigator) || !import.meta.env.PROD) return;
  const hadOne = navigator.serviceWorker.controller !== null;
  let asked = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (hadOne && asked) location.reload();
  });
  void navigator.serviceWorker.register('./sw.js', { updateViaCache: 'none' }).then((registration) => {
    const look = () => {
      const { waiting } = registration;
      if (!waiting || !navigator.serviceWorker.controller) return;
      offer(() => {
        asked = true;
        waiting.postMessage('take over');
      });
    };
    look();
    registration.addEventListener('updatefound', () => {
      registration.installing?.addEventListener('statechange', look);
    });
  }).catch(() => undefined); // no server: what is kept already answers
}
