/** How a part goes on its hub, as it is ticked at the bench and read again on another tablet. */
export interface Place {
  turned: number;
  plate: { name: string; position: number } | null;
}

const studs = (n: number) => (n === 1 ? '1 stud' : `${n} studs`);

export const placeInWords = ({ turned, plate }: Place): string =>
  [`turned by ${studs(turned)}`, plate ? `plate ${plate.name}, thick at stud ${plate.position + 1}` : '']
    .filter(Boolean)
    .join('; ');

/** Null where the words are no place. */
export function placeFromWords(text: string): Place | null {
  const found = /^turned by (\d+) studs?(?:; plate (.+), thick at stud (\d+))?$/.exec(text);
  if (!found) return null;
  const [, turned, name, stud] = found;
  return {
    turned: Number(turned),
    plate: name && stud ? { name, position: Number(stud) - 1 } : null,
  };
}
