// The number pad: big keys for a wet thumb. It types into the field beside it; the keyboard does the same.
import type { Unit } from '../job/answers';
import { say } from '../words/words';

const kDigits = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'];
const kParts = ['1/2', '1/4', '3/4', '1/8', '1/16'];

interface PadProps {
  onKey: (key: string) => void;
  units: readonly Unit[];
  unit: Unit;
  onUnit: (unit: Unit) => void;
}

export function Pad({ onKey, units, unit, onUnit }: PadProps) {
  const fractions = unit === 'in' || unit === 'ft';
  return (
    <div class={`pad ${units.length === 0 ? 'alone' : ''}`} role="group" aria-label={say('pad.name')}>
      <div class="digits">
        {kDigits.map((digit) => (
          <button key={digit} type="button" onClick={() => onKey(digit)}>{digit}</button>
        ))}
        <button type="button" onClick={() => onKey('back')} aria-label={say('pad.back')}>⌫</button>
      </div>
      {units.length > 0 && (
        <div class="units" role="group" aria-label={say('ask.unit')}>
          {units.map((one) => (
            <button key={one} type="button" aria-pressed={unit === one} onClick={() => onUnit(one)}>{one}</button>
          ))}
        </div>
      )}
      {fractions && (
        <div class="parts">
          {kParts.map((part) => (
            <button key={part} type="button" onClick={() => onKey(part)}>{part}</button>
          ))}
        </div>
      )}
    </div>
  );
}

// What a key makes of the text. A part of an inch follows whole ones after a space.
export function typed(text: string, key: string): string {
  if (key === 'back') return text.slice(0, -1);
  if (key.includes('/')) return `${text.replace(/\s*\d+\/\d+$/, '').trim()} ${key}`.trim();
  if (key === '.' && text.includes('.')) return text;
  return text + key;
}
