// How the page looks on this device: ground, hand, size of type.
import { useState } from 'preact/hooks';
import { put, setting, type Settings as Kept } from '../store/settings';
import { say } from '../words/words';

const kSettings: { [Name in keyof Kept]: readonly Kept[Name][] } = {
  theme: ['system', 'light', 'dark'],
  hand: ['right', 'left'],
};

function Row<Name extends keyof Kept>({ name }: { name: Name }) {
  const [is, set] = useState(() => setting(name));
  return (
    <div class="choice" role="group" aria-label={say(`settings.${name}`)}>
      <span>{say(`settings.${name}`)}</span>
      {kSettings[name].map((one) => (
        <button key={one} type="button" aria-pressed={is === one} onClick={() => { put(name, one); set(one); }}>
          {say(`settings.${name}.${one}` as 'settings.theme.dark')}
        </button>
      ))}
    </div>
  );
}

export function Settings() {
  return (
    <section class="settings" aria-label={say('settings.title')}>
      <h2>{say('settings.title')}</h2>
      <Row name="theme" />
      <Row name="hand" />
    </section>
  );
}
