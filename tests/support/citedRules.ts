import ts from 'typescript';

/** The name a call goes back to: `it` for it(…), it.each(…)(…) and it.each`…`(…). */
function rootName(callee: ts.Expression): string | undefined {
  if (ts.isIdentifier(callee)) return callee.text;
  if (ts.isPropertyAccessExpression(callee) || ts.isCallExpression(callee)) return rootName(callee.expression);
  if (ts.isTaggedTemplateExpression(callee)) return rootName(callee.tag);
  return undefined;
}

function titleText(title: ts.Expression | undefined): string | undefined {
  if (title === undefined) return undefined;
  if (ts.isStringLiteralLike(title)) return title.text;
  return ts.isTemplateExpression(title) ? title.head.text : undefined;
}

/**
 * The rules that the test titles of a file cite: `BL1: …`, or `BL1, BL4: …` where one test shows both.
 *
 * @param text TypeScript source of a test file
 */
export function citedRules(text: string): string[] {
  const cited: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && ['it', 'test'].includes(rootName(node.expression) ?? '')) {
      const ids = /^([A-Z]{2}\d+(?:, [A-Z]{2}\d+)*): /.exec(titleText(node.arguments[0]) ?? '')?.[1];
      if (ids !== undefined) cited.push(...ids.split(', '));
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('test.ts', text, ts.ScriptTarget.Latest, false));
  return cited;
}
