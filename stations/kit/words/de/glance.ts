/** Deutsch für ../glance.ts. */
export const glance = {
  since: (time: string): string => `hier seit ${time}`,
  blocked: 'blockiert:',
};
