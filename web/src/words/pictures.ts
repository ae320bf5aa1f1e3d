export const pictures = {};
