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

// As it stands on a tape.
export const tape = (mm: number): string => String(Math.round(mm * 10) / 10);

export const percent = (share: number): string => `${number(Math.max(0, share) * 100, 1)} %`;

// Pounds or euros as typed, to pence or cents; null: not an amount.
export function moneyOf(text: string): number | null {
  const found = /^\s*(\d{1,7})(?:[.,](\d{1,2}))?\s*$/.exec(text);
  return found ? Number(found[1]) * 100 + Number((found[2] ?? '').padEnd(2, '0')) : null;
}

// As it would be typed.
export const moneyText = (amount: unknown): string =>
  typeof amount === 'number' ? (amount / 100).toFixed(2) : typeof amount === 'string' ? amount : '';
