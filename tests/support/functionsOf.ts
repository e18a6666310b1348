import { readFileSync } from 'node:fs';
import ts from 'typescript';

/** A module's top-level functions and constants by name, each with its text: what a fence over one operation looks at. */
export function functionsOf(file: URL): { readonly name: string; readonly text: string }[] {
  const source = ts.createSourceFile(file.pathname, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  return source.statements.flatMap((statement) => {
    const names = ts.isFunctionDeclaration(statement)
      ? [statement.name?.text]
      : ts.isVariableStatement(statement)
        ? statement.declarationList.declarations.map(({ name }) => name.getText())
        : [];
    return names.flatMap((name) => (name === undefined ? [] : [{ name, text: statement.getText() }]));
  });
}
