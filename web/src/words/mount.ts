/** The mount. */
export const mount = {} as const;
