/** A stylus profile put in for a reading of roughness. */
export const profile = {
  title: 'From a profile',
  lead: 'Heights as a roughness tester exports them: x_mm,z_um on each line, or heights in micrometres alone. Read it straight across the marks of the tool.',
  file: 'Choose a file',
  paste: 'Or paste it',
  spacing: 'Between two points (µm)',
  spacing_wanted: (count: number) => `${count} heights and no places: say how far apart the points lie.`,
  spacing_bad: 'A number of micrometres over 0, such as 0.5.',
  cutoff: 'Cut-off (mm)',
  suggested: 'As suggested',
  wrong: {
    empty: 'There are no numbers in this.',
    letters: 'There is something here that is no number.',
    decimal_commas: 'These look like decimal commas. Export it again with decimal points.',
    inches: 'This is in inches. Export it again in mm and µm.',
    columns: 'Each line needs the same one or two numbers: the height, or the place and the height.',
    uneven: 'The places do not rise in even steps.',
    too_long: 'This is too long: at most 200 000 points. Cut out one traverse of the stylus.',
    heights: 'The heights differ by more than 1 mm. Are they in micrometres?',
  },
  too_short:
    'This is too short for the cut-off: it takes one cut-off between the ends, and half a one is left out at each end.',
  too_coarse: 'The points lie too far apart: the filter wants twenty or more to a cut-off, and a spacing over 0.',
  on_line: (line: number, what: string) => `Line ${line}: ${what}`,
  working: 'Reading it …',
  picture: 'Roughness, with the mean line taken out',
  says: (length: string, high: string, low: string) =>
    `${length} long, from ${high} above the mean to ${low} below it.`,
  spread: (low: string, high: string) =>
    `From cut-off to cut-off Ra runs from ${low} to ${high}. The tester’s own error comes on top: its certificate says how large.`,
  basis: (cutoff: string, sections: number, length: string) =>
    `Gaussian filter, cut-off ${cutoff} mm; ${length} of it in ${sections} ${sections === 1 ? 'cut-off' : 'cut-offs'}, half a cut-off left out at each end.`,
  basis_suggested:
    'The cut-off is the one that ISO 4288 suggests for this Ra, from memory, as far as the profile is long and fine enough for it.',
  short: 'The standard wants five cut-offs. With fewer, one spot counts for much.',
  put_in: (ra: string, where: string) => `Take Ra ${ra} for ${where}`,
  all_read: 'Every face is read. Take one back with Undo to put in another.',
} as const;
