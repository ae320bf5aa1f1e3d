import { useState } from 'preact/hooks';
import { call } from '../api/client';
import { newId } from '../api/ids';
import type { Lathe, Unit } from '../api/schema';
import { nmOf, type ReadLength } from '../controls/length_field';
import { useSaving } from '../controls/saving';
import { loadShop } from '../state/shop';
import { words } from '../words';
import { contradiction } from './arbor_rules';
import { numberList, numberOf, textOfNm } from './numbers';

export type NumberName = 'dial_um_per_mark' | 'dial_inboard_um_per_mark' | 'dial_sd_um' | 'mount_runout_um';
export type LengthName =
  | 'arbor_diameter_nm'
  | 'thread_start_nm'
  | 'tip_nm'
  | 'nut_engagement_nm'
  | 'travel_nm'
  | 'approach_nm';
export type ListName = 'speeds_rpm' | 'feeds_mm_per_rev';

const LENGTHS: readonly LengthName[] = [
  'arbor_diameter_nm',
  'thread_start_nm',
  'tip_nm',
  'nut_engagement_nm',
  'travel_nm',
  'approach_nm',
];
const NUMBERS: readonly NumberName[] = [
  'dial_um_per_mark',
  'dial_inboard_um_per_mark',
  'dial_sd_um',
  'mount_runout_um',
];
const USUAL_NUT_NM = 8_000_000;
const USUAL_APPROACH_NM = 6_000_000;
/** The inboard dial may stay untold: it is then as the outboard one. */
const DIALS: readonly NumberName[] = ['dial_um_per_mark', 'dial_inboard_um_per_mark'];
const MAY_BE_EMPTY: readonly NumberName[] = ['dial_inboard_um_per_mark'];

export const LATHE_FIELDS: readonly string[] = [
  'name',
  'note',
  ...NUMBERS,
  ...LENGTHS,
  'speeds_rpm',
  'feeds_mm_per_rev',
];

function textsOf(lathe: Lathe | null, unit: Unit): Record<NumberName | LengthName | ListName, string> {
  const number = (value: number | null | undefined, otherwise: string) =>
    value === null || value === undefined ? otherwise : String(value);
  return {
    dial_um_per_mark: number(lathe?.dial_um_per_mark, ''),
    dial_inboard_um_per_mark: number(lathe?.dial_inboard_um_per_mark, ''),
    dial_sd_um: number(lathe?.dial_sd_um, '5'),
    mount_runout_um: number(lathe?.mount_runout_um, '30'),
    arbor_diameter_nm: textOfNm(lathe?.arbor_diameter_nm, unit),
    thread_start_nm: textOfNm(lathe?.thread_start_nm, unit),
    tip_nm: textOfNm(lathe?.tip_nm, unit),
    nut_engagement_nm: textOfNm(lathe?.nut_engagement_nm ?? USUAL_NUT_NM, unit),
    travel_nm: textOfNm(lathe?.travel_nm, unit),
    approach_nm: textOfNm(lathe?.approach_nm ?? USUAL_APPROACH_NM, unit),
    speeds_rpm: (lathe?.speeds_rpm ?? []).join(' '),
    feeds_mm_per_rev: (lathe?.feeds_mm_per_rev ?? []).join(' '),
  };
}

/** A lathe as it is typed: everything text until it is saved, lengths read by the shop. */
export function useLatheDraft(lathe: Lathe | null, start: Unit, onDone: () => void) {
  const [id] = useState(() => lathe?.id ?? newId());
  const [name, setName] = useState(lathe?.name ?? '');
  const [note, setNote] = useState(lathe?.note ?? '');
  const [active, setActive] = useState(lathe?.active ?? true);
  const [dialReads, setDialReads] = useState(lathe?.dial_reads ?? 'depth');
  const [nutThread, setNutThread] = useState(lathe?.nut_thread ?? 'left');
  const [unit, setUnit] = useState(start);
  const [texts, setTexts] = useState(() => textsOf(lathe, start));
  const [asked, setAsked] = useState(false);
  const [read, setRead] = useState<Partial<Record<LengthName, number | null>>>({});
  const saving = useSaving();
  const type = (field: keyof typeof texts) => (text: string) => {
    setTexts((now) => ({ ...now, [field]: text }));
    // What the text before it said contradicts nothing any more, while the shop still reads this one.
    setRead((now) => ({ ...now, [field]: null }));
  };
  const onRead = (field: LengthName) => (length: ReadLength | null) =>
    setRead((now) => ({ ...now, [field]: length ? length.nm / 1e6 : null }));
  const mm = (field: LengthName) => read[field] ?? null;
  const against = contradiction({
    thread_start_mm: mm('thread_start_nm'),
    tip_mm: mm('tip_nm'),
    nut_engagement_mm: mm('nut_engagement_nm'),
  });
  const numbers = Object.fromEntries(NUMBERS.map((field) => [field, numberOf(texts[field])])) as Record<
    NumberName,
    number | null
  >;
  const badNumber = (field: NumberName) => {
    if (texts[field].trim() === '') {
      return asked && !MAY_BE_EMPTY.includes(field) ? words.shop.needed_here : undefined;
    }
    const value = numbers[field];
    if (!DIALS.includes(field)) return value === null ? words.shop.rules.number_bad : undefined;
    return value === null || value < 0.1 || value > 1000 ? words.shop.lathes.dial_range : undefined;
  };
  const listed = (field: ListName) => numberList(texts[field]);
  const ready =
    name.trim() !== '' &&
    against === null &&
    NUMBERS.every((field) => numbers[field] !== null || (MAY_BE_EMPTY.includes(field) && texts[field].trim() === '')) &&
    DIALS.every((field) => badNumber(field) === undefined) &&
    listed('speeds_rpm').wrong.length === 0 &&
    listed('feeds_mm_per_rev').wrong.length === 0;
  const save = () =>
    saving.run(async () => {
      const { dial_um_per_mark, dial_inboard_um_per_mark, dial_sd_um, mount_runout_um } = numbers;
      if (dial_um_per_mark === null || dial_sd_um === null || mount_runout_um === null) return;
      const lengths = await Promise.all(
        LENGTHS.map(async (field) => [field, await nmOf(texts[field], unit, field)] as const),
      );
      const nm = Object.fromEntries(lengths) as Record<LengthName, number | null>;
      const body: Lathe = {
        id,
        name: name.trim(),
        note: note.trim(),
        active,
        dial_um_per_mark,
        dial_inboard_um_per_mark,
        dial_sd_um,
        mount_runout_um,
        dial_reads: dialReads,
        nut_thread: nutThread,
        ...nm,
        nut_engagement_nm: nm.nut_engagement_nm ?? USUAL_NUT_NM,
        approach_nm: nm.approach_nm ?? USUAL_APPROACH_NM,
        speeds_rpm: listed('speeds_rpm').values,
        feeds_mm_per_rev: listed('feeds_mm_per_rev').values,
      };
      await call('put', '/lathes/{lathe_id}', { path: { lathe_id: id }, body });
      await loadShop();
      onDone();
    });
  return {
    name,
    setName,
    note,
    setNote,
    active,
    setActive,
    dialReads,
    setDialReads,
    nutThread,
    setNutThread,
    unit,
    setUnit,
    texts,
    type,
    onRead,
    mm,
    against,
    numbers,
    badNumber,
    asked,
    /** Saving was asked for: what is empty and may not be is marked from now on. */
    ask: () => setAsked(true),
    saving,
    ready,
    save,
  };
}

export type LatheDraft = ReturnType<typeof useLatheDraft>;
