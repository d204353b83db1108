// What a person set for this device. Put on the root element, where the styles read it.
export interface Settings {
  theme: 'system' | 'light' | 'dark';
  hand: 'right' | 'left';
}

const kUsual: Settings = { theme: 'system', hand: 'right' };
const key = (name: keyof Settings): string => `lapwright.${name}`;

export function setting<Name extends keyof Settings>(name: Name): Settings[Name] {
  try {
    return (localStorage.getItem(key(name)) as Settings[Name] | null) ?? kUsual[name];
  } catch {
    return kUsual[name];
  }
}

export function put<Name extends keyof Settings>(name: Name, value: Settings[Name]): void {
  try {
    localStorage.setItem(key(name), value);
  } catch {
    // lasts as long as the page
  }
  document.documentElement.dataset[name] = value;
}

export function showSettings(): void {
  for (const name of Object.keys(kUsual) as (keyof Settings)[]) document.documentElement.dataset[name] = setting(name);
}
