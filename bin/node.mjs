// Which Nodes can run Pullbook. In plain syntax and with no import, because a Node too old for the rest must read it.

/**
 * A sentence for the person whose Node cannot run Pullbook, or null. Below 22.14 the database engine decides:
 * one line of it is for Node 20, the next needs version 10 of the native interface.
 */
export function nodeTrouble(version = process.versions.node) {
  const [major, minor] = version.split('.').map(Number);
  const runs = (major === 20 && minor >= 19) || (major === 22 && minor >= 14) || major >= 24;
  return runs
    ? null
    : `Node ${version} cannot run Pullbook; install Node 20.19 or later, 22.14 or later, or 24 or later.`;
}
