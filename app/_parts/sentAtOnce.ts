/** For mutations: a press without a link fails at once and says so, instead of waiting unsaid for the link to come back. */
export const sentAtOnce = { networkMode: 'always' } as const;
