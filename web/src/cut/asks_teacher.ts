/** The refusal of work at the lathe that a teacher's signature for this job answers. */
export const asksTeacher = (code: string): boolean => code === 'needs_permit';
