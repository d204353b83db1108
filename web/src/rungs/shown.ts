// Money, lengths and shares as they are read.
import { spoken } from '../words/words';

const kLocales: Record<string, string> = { en: 'en-GB', 'x-pseudo': 'en-GB' };
const locale = (): string => kLocales[spoken()] ?? spoken();

// `amount` in pence or cents.
export function money(amount: number, currency: string): string {
  const whole = Math.round(amount) / 100;
  try {
    return new Intl.NumberFormat(locale(), { style: 'currency', currency }).format(whole);
  } catch {
    return `${number(whole, 2)} ${currency}`; // three letters that no table knows
  }
}

export function number(value: number, most = 0): string {
  return new Intl.NumberFormat(locale(), { maximumFractionDigits: most }).format(value);
}

// As it stands on the tape: whole millimetres, or feet, inches and sixteenths, as the engine shows them.
export function tape(mm: number, inches: boolean): string {
  if (!inches) return String(Math.round(mm));
  const all = Math.round((mm * 16) / 25.4);
  const feet = Math.floor(all / 192);
  const whole = Math.floor(all / 16) % 12;
  const part = all % 16;
  const half = part % 8 === 0 ? 8 : part % 4 === 0 ? 4 : part % 2 === 0 ? 2 : 1;
  const small = part === 0 ? '' : `${part / half}/${16 / half}`;
  const inch = whole === 0 && small !== '' && feet === 0 ? small : [whole, small].filter((one) => one !== '').join(' ');
  if (feet === 0) return `${inch} in`;
  return whole === 0 && part === 0 ? `${feet} ft` : `${feet} ft ${inch} in`;
}

// A size across and along.
export const sized = (width: number, length: number, inches: boolean): string =>
  inches ? `${tape(width, true)} × ${tape(length, true)}` : `${tape(width, false)} × ${tape(length, false)} mm`;

export const percent = (share: number): string => `${number(Math.max(0, share) * 100, 1)} %`;

// Pounds or euros as typed, to pence or cents; null: not an amount.
export function moneyOf(text: string): number | null {
  const found = /^\s*(\d{1,7})(?:[.,](\d{1,2}))?\s*$/.exec(text);
  return found ? Number(found[1]) * 100 + Number((found[2] ?? '').padEnd(2, '0')) : null;
}

// As it would be typed.
export const moneyText = (amount: unknown): string =>
  typeof amount === 'number' ? (amount / 100).toFixed(2) : typeof amount === 'string' ? amount : '';
