export const mediumOptions = [
  { key: 'table', words: 'the puppy on the table' },
  { key: 'photographs', words: 'photographs' },
] as const;
