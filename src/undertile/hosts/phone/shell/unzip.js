// The bundle's zips are stored, not compressed (build.py): each file is a slice of what was fetched, and nothing is
// copied. Files go into Python's file system in memory; compiled modules stay where they are, for ahead.py.

const FILE = 0x04034b50; // the mark of a local file header (APPNOTE.TXT 4.3.7)
const HEAD = 30;

// The compiled modules of a zip: [name, where its content begins, its size]. `files` is given the others: [path, content].
export function unpack(FS, bytes, folder, files = []) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const text = new TextDecoder();
  const made = new Set();
  const modules = [];
  let at = 0;
  while (at + HEAD <= bytes.length && view.getUint32(at, true) === FILE) {
    const [packed, size] = [view.getUint32(at + 18, true), view.getUint32(at + 22, true)];
    if (view.getUint16(at + 8, true) !== 0 || packed !== size) throw new Error("expected a zip with stored files");
    const [nameSize, extra] = [view.getUint16(at + 26, true), view.getUint16(at + 28, true)];
    const name = text.decode(bytes.subarray(at + HEAD, at + HEAD + nameSize));
    const from = at + HEAD + nameSize + extra;
    at = from + size;
    if (name.endsWith(".pyc") && !name.includes("__pycache__/")) {
      modules.push([name, from, size]);
      continue;
    }
    const path = `${folder}/${name}`;
    const parent = path.slice(0, path.lastIndexOf("/"));
    if (!made.has(parent)) FS.mkdirTree(parent);
    made.add(parent);
    if (name.endsWith("/")) continue;
    const content = bytes.subarray(from, from + size);
    FS.writeFile(path, content, { canOwn: true });
    files.push([path, content]);
  }
  return modules;
}
