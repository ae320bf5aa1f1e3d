/** A sentence of the shop's answer with the signs that a page has: "20 um" is "20 µm". */
export const typeset = (text: string) => text.replace(/ um\b/g, ' µm');
