/** Where one stands, or what one uses, to score a criterion. A sheet runs through them in this order. */
export const views = ['side', 'front', 'rear', 'above', 'hands', 'head'] as const;
export type View = (typeof views)[number];
