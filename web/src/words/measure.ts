export const measure = {};
