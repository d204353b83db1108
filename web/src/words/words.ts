// Every word that the page itself says, by key. The engine's sentences come from the engine.
//
// "{name}" is replaced by the value of that name. The pseudo-language is made from English: accents on every letter and a
// bracket at each end, so that a word that was left behind, or cut short, is seen at once.
import english from './en.json';
import { pseudo } from './pseudo';

export type WordKey = keyof typeof english;
export type Values = Record<string, string | number>;
type Catalogue = Record<string, string>;

export const languages = { en: () => english as Catalogue, 'x-pseudo': () => pseudo(english) };
export type Language = keyof typeof languages;

let catalogue: Catalogue = english;
let language: Language = 'en';

export function speak(which: Language): void {
  language = which;
  catalogue = languages[which]();
}

export const spoken = (): Language => language;

export function say(key: WordKey, values: Values = {}): string {
  const text = catalogue[key];
  if (text === undefined) return `«${key}»`;
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => (name in values ? String(values[name]) : whole));
}

// Of one thing or several: "KEY.one" where there is just one.
export const sayMany = (key: WordKey, count: number, values: Values = {}): string =>
  say((count === 1 && `${key}.one` in catalogue ? `${key}.one` : key) as WordKey, { ...values, count });

// For keys that are put together: the word, or what to say instead.
export const sayIfKnown = (key: string, otherwise: string): string =>
  key in catalogue ? say(key as WordKey) : otherwise;
