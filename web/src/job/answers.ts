// How a value stands in a job and in a field: what was typed, its unit, its ±. The engine reads lengths; nothing is
// converted here.
export type Unit = 'mm' | 'in' | 'ft' | 'm' | '';

export interface Typed {
  text: string;
  unit: Unit;
  spread: string;
}

const kUnits: readonly Unit[] = ['mm', 'in', 'ft', 'm'];

// "10 1/2 in" → "10 1/2", in; what names several units ("18 ft 6 in") stays one text.
function apart(value: unknown, bare: Unit): { text: string; unit: Unit } {
  if (typeof value === 'number') return { text: String(value), unit: bare };
  if (typeof value !== 'string') return { text: '', unit: bare };
  const match = /^\s*([^A-Za-z"']*?)\s*(mm|in|ft|m)?\s*$/.exec(value);
  if (!match) return { text: value, unit: '' };
  const unit = kUnits.find((one) => one === match[2]);
  return { text: match[1] ?? '', unit: unit ?? bare };
}

export function typedOf(value: unknown, bare: Unit): Typed {
  if (Array.isArray(value)) {
    const spread: unknown = value[1];
    return { ...apart(value[0], bare), spread: spread === undefined ? '' : apart(spread, bare).text };
  }
  return { ...apart(value, bare), spread: '' };
}

const isDecimal = (text: string): boolean => /^\d+([.,]\d*)?$|^[.,]\d+$/.test(text);

function one(text: string, unit: Unit, bare: Unit): number | string {
  const trimmed = text.trim();
  if (isDecimal(trimmed) && (unit === bare || unit === '')) return Number(trimmed.replace(',', '.'));
  return /[a-z"'′″]/i.test(trimmed) || unit === '' ? trimmed : `${trimmed} ${unit}`;
}

// Undefined when nothing was typed.
export function valueOf(typed: Typed, bare: Unit): unknown {
  if (typed.text.trim() === '') return undefined;
  const value = one(typed.text, typed.unit, bare);
  return typed.spread.trim() === '' ? value : [value, one(typed.spread, typed.unit, bare)];
}
