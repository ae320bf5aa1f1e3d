/** Where along an arbor its thread and its tip lie, from the shoulder; null where it is not known. */
export interface ArborLengths {
  thread_start_mm: number | null;
  tip_mm: number | null;
  nut_engagement_mm: number | null;
}

export type Contradiction = 'tip_before_thread' | 'no_room_for_nut';

/** What cannot be, or null: the tip before the thread, or a thread too short for the nut to hold anything. */
export function contradiction({ thread_start_mm, tip_mm, nut_engagement_mm }: ArborLengths): Contradiction | null {
  if (thread_start_mm === null || tip_mm === null) return null;
  if (tip_mm <= thread_start_mm) return 'tip_before_thread';
  if (nut_engagement_mm !== null && thread_start_mm + nut_engagement_mm > tip_mm) return 'no_room_for_nut';
  return null;
}

/** Where a stack may end, from the shoulder: it must reach the thread and leave the nut its own. */
export function stackWindow({ thread_start_mm, tip_mm, nut_engagement_mm }: ArborLengths) {
  if (thread_start_mm === null || tip_mm === null || nut_engagement_mm === null) return null;
  const most_mm = tip_mm - nut_engagement_mm;
  return most_mm >= thread_start_mm ? { least_mm: thread_start_mm, most_mm } : null;
}
