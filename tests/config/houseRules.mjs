import { staleRead } from './staleRead.mjs';

/** Small lint rules of this house that no package offers. */

const emptyNames = new Set(['utils', 'util', 'helpers', 'helper', 'common', 'types', 'misc', 'index']);

/** A file is named after its one main export, so a name that says nothing is refused. */
const fileName = {
  meta: {
    type: 'suggestion',
    schema: [],
    messages: { empty: 'A file is named after its main export; "{{name}}" says nothing.' },
  },
  create: (context) => ({
    Program(node) {
      const name = (context.filename.split(/[\\/]/).pop() ?? '').replace(/(\.(test|spec|d))?\.\w+$/, '');
      if (emptyNames.has(name.toLowerCase())) context.report({ node, messageId: 'empty', data: { name } });
    },
  }),
};

/** Whoever switches a rule off says why, on the same line, after two dashes. */
const disableReason = {
  meta: {
    type: 'suggestion',
    schema: [],
    messages: { missing: 'Say why the rule is switched off: "eslint-disable… rule -- reason".' },
  },
  create: (context) => ({
    Program() {
      for (const comment of context.sourceCode.getAllComments()) {
        if (/^\s*eslint-disable/.test(comment.value) && !/\s--\s+\S/.test(comment.value)) {
          context.report({ loc: comment.loc, messageId: 'missing' });
        }
      }
    },
  }),
};

export const houseRules = {
  rules: { 'file-name': fileName, 'disable-reason': disableReason, 'stale-read': staleRead },
};
