/** What every saving says. */
export const saving = {
  busy: 'Saving…',
  saved: 'Saved',
  bare_unit: (unit: string, other: string) => `a bare number is in ${unit}; change to ${other}`,
  unreachable: 'The shop did not answer. Nothing is lost: what you typed is still here. Try again in a moment.',
} as const;
