/** A sentence of the shop's answer with the signs that a page has: "20 um" is "20 µm". */
export const typeset = (text: string) => text.replace(/ um\b/g, ' µm');

/** A refusal of the shop as a sentence of its own begins. */
export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
