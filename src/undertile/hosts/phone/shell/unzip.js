// Files of a zip straight into Python's file system in memory. The bundle's zips are stored, not compressed
// (build.py): each file is a slice of what was fetched, and nothing is copied.

const FILE = 0x04034b50; // the mark of a local file header (APPNOTE.TXT 4.3.7)
const HEAD = 30;

export function unpack(FS, bytes, folder) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const text = new TextDecoder();
  const made = new Set();
  let at = 0;
  while (at + HEAD <= bytes.length && view.getUint32(at, true) === FILE) {
    const [packed, size] = [view.getUint32(at + 18, true), view.getUint32(at + 22, true)];
    if (view.getUint16(at + 8, true) !== 0 || packed !== size) throw new Error("expected a zip with stored files");
    const [nameSize, extra] = [view.getUint16(at + 26, true), view.getUint16(at + 28, true)];
    const name = text.decode(bytes.subarray(at + HEAD, at + HEAD + nameSize));
    const from = at + HEAD + nameSize + extra;
    const path = `${folder}/${name}`;
    const parent = path.slice(0, path.lastIndexOf("/"));
    if (!made.has(parent)) FS.mkdirTree(parent);
    made.add(parent);
    if (!name.endsWith("/")) FS.writeFile(path, bytes.subarray(from, from + size), { canOwn: true });
    at = from + size;
  }
  return made.size;
}
