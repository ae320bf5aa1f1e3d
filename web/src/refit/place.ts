/** How a part goes on its hub, as it is ticked at the bench and read again on another tablet. */
export interface Place {
  turned: number;
  plate: { name: string; position: number } | null;
  /** Why there, where another place was worked out; empty otherwise. */
  reason: string;
}

const studs = (n: number) => (n === 1 ? '1 stud' : `${n} studs`);

export const placeInWords = ({ turned, plate, reason }: Place): string =>
  [
    `turned by ${studs(turned)}`,
    plate ? `plate ${plate.name}, thick at stud ${plate.position + 1}` : '',
    reason.trim() ? `because: ${reason.trim()}` : '',
  ]
    .filter(Boolean)
    .join('; ');

/** Null where the words are no place. */
export function placeFromWords(text: string): Place | null {
  const found = /^turned by (\d+) studs?(?:; plate (.+?), thick at stud (\d+))?(?:; because: ([\s\S]+))?$/.exec(text);
  if (!found) return null;
  const [, turned, name, stud, reason = ''] = found;
  return {
    turned: Number(turned),
    plate: name && stud ? { name, position: Number(stud) - 1 } : null,
    reason,
  };
}

/** The torque that was looked up, as it is ticked with the nuts. */
export interface Torque {
  nm: number;
  source: string;
}

export const torqueInWords = ({ nm, source }: Torque): string => `${nm} N·m; ${source}`;

export function torqueFromWords(text: string): Torque | null {
  const found = /^(\d+(?:\.\d+)?) N·m; (.+)$/.exec(text);
  return found?.[1] && found[2] ? { nm: Number(found[1]), source: found[2] } : null;
}

export type TorqueUnit = 'nm' | 'lbft';

/** The pound in kilograms, standard gravity in m/s² and the foot in metres, all exact by definition. */
const NM_PER_LBFT = 0.45359237 * 9.80665 * 0.3048;
const MOST_NM = 1000;

/** What was typed, in newton metres to a tenth; null where it is no torque of a wheel nut. */
export function readTorque(text: string, unit: TorqueUnit): number | null {
  const plain = text.trim().replace(',', '.');
  if (!/^\d+(\.\d+)?$/.test(plain)) return null;
  const nm = Number(plain) * (unit === 'nm' ? 1 : NM_PER_LBFT);
  return nm > 0 && nm <= MOST_NM ? Math.round(10 * nm) / 10 : null;
}

export const showTorque = (nm: number, unit: TorqueUnit): string =>
  String(Math.round(nm / (unit === 'nm' ? 1 : NM_PER_LBFT)));
