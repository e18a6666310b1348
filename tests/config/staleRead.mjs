/**
 * What was read before an await is old after it: somebody may have tapped meanwhile. Refused is (1) an expression that
 * reads state and then waits, and (2) a step handed to `change` that uses what was read before the function last waited.
 */
export const staleRead = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      sameExpression: 'This reads state and then waits: what it read is old when it is used. Wait first, then read.',
      staleStep: '"{{name}}" was read before an await: in a step, read from the present that is handed in.',
    },
  },
  create: (context) => ({
    AwaitExpression(node) {
      for (const read of readsBefore(node)) context.report({ node: read, messageId: 'sameExpression' });
    },
    CallExpression(node) {
      if (node.callee.type !== 'MemberExpression' || node.callee.property.name !== 'change') return;
      const [step] = node.arguments;
      if (!step || !isFunction(step)) return;
      for (const name of staleNames({ call: node, step, sourceCode: context.sourceCode }))
        context.report({ node, messageId: 'staleStep', data: { name } });
    },
  }),
};

const isFunction = (node) => /Function/.test(node.type);

/** Settings are handed in once; everything else of `this`, and what is named as state, may be another the next moment. */
const statefulNames = new Set(['current', 'view', 'state']);
function isRead(node) {
  if (node.type !== 'MemberExpression') return false;
  if (node.object.type === 'ThisExpression') return node.property.name !== 'setting';
  return statefulNames.has(node.property.name);
}

function childrenOf(node) {
  return Object.entries(node)
    .filter(([key]) => key !== 'parent')
    .flatMap(([, value]) => (Array.isArray(value) ? value : [value]))
    .filter((value) => value && typeof value.type === 'string')
    .toSorted((one, other) => one.range[0] - other.range[0]);
}

/** The first read of state in a piece of syntax; not in functions that only run later. */
function findRead(node) {
  if (isFunction(node)) return null;
  if (isRead(node)) return node;
  for (const child of childrenOf(node)) {
    const read = findRead(child);
    if (read) return read;
  }
  return null;
}

/** Reads that the expression around an await has made before it waits, and uses after. */
function readsBefore(awaited) {
  const reads = [];
  for (
    let child = awaited, parent = awaited.parent;
    parent && !isFunction(parent) && !/Statement|Declarator|Declaration|ClassBody|Program/.test(parent.type);
    child = parent, parent = parent.parent
  ) {
    // A condition is used up before the wait; what is called and what is assigned to are no values.
    if (parent.type === 'LogicalExpression' || parent.type === 'ConditionalExpression') continue;
    if (parent.type === 'AssignmentExpression' && parent.operator === '=') continue;
    for (const sibling of childrenOf(parent)) {
      if (sibling === child) break;
      if ((parent.type === 'CallExpression' || parent.type === 'NewExpression') && sibling === parent.callee) continue;
      const read = findRead(sibling);
      if (read) reads.push(read);
    }
  }
  return reads;
}

function staleNames({ call, step, sourceCode }) {
  const awaits = awaitsIn(functionAround(call));
  const names = new Set();
  for (const { resolved, identifier } of sourceCode.scopeManager.acquire(step).through) {
    const declarator = resolved?.defs[0]?.node;
    if (declarator?.type !== 'VariableDeclarator' || !declarator.init || !findRead(declarator.init)) continue;
    if (
      functionAround(declarator) === functionAround(call) &&
      awaits.some((awaited) => isBetween(awaited, { declarator, call }))
    )
      names.add(identifier.name);
  }
  return names;
}

function functionAround(node) {
  for (let around = node.parent; around; around = around.parent) if (isFunction(around)) return around;
  return null;
}

function awaitsIn(node) {
  if (!node) return [];
  const own = (inner) =>
    isFunction(inner) ? [] : [...(inner.type === 'AwaitExpression' ? [inner] : []), ...childrenOf(inner).flatMap(own)];
  return childrenOf(node).flatMap(own);
}

/** After the reading and before the step, or in a loop round the step that the reading stands before. */
function isBetween(awaited, { declarator, call }) {
  if (awaited.range[0] < declarator.range[1]) return false;
  if (awaited.range[0] < call.range[0]) return true;
  for (let around = call.parent; around && !isFunction(around); around = around.parent) {
    const holds = (node) => node.range[0] >= around.range[0] && node.range[1] <= around.range[1];
    if (/^(For|While|DoWhile)/.test(around.type) && holds(awaited) && !holds(declarator)) return true;
  }
  return false;
}
