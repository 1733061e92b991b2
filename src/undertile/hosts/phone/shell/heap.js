// The interpreter's memory as it stands once everything of ours has been read, kept on the phone: a later start fills
// it in and need not compile, read and build all that anew. Made on this phone, of this bundle and in this browser;
// whoever finds it missing, of something else or not whole starts the plain way (worker.js). It knows of no job, no
// person and no device.
//
// What is kept: MARKS words of 32 bits (mark, size of the head, two sums, size of all), the head as JSON, the pages of
// memory that are not empty, the files that are no code. The sums are over all of it, they themselves taken as 0: a
// head that is not whole would put a page of memory elsewhere.

const NAME = "heap.bin"; // in the origin's own files: read in one go, without a copy on the way
const NOTE = "heap.json"; // how often this phone has begun to make one since a start from one came to its end
const TRYING = "heap.trying"; // not empty: a start has begun to fill the memory in, and has not come to its end
const MAGIC = 0x55746c31;
const MARKS = 5;
const PAGE = 4096;
const ROOM = 300e6; // bytes: a phone with less left keeps its room for what is typed
const TRIES = 2; // a phone that ended the page in the midst of it, twice, is not asked again

const padded = (size) => Math.ceil(size / PAGE) * PAGE;

// Two sums over all words, four lanes at a time (a third of the time of one by one); the second tells their order.
function sums(bytes) {
  const words = new Int32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength >> 2);
  let [a, b, c, d, order] = [0, 0, 0, 0, 0];
  for (let at = 0; at < words.length; at += 4) {
    a = (a + words[at]) | 0;
    b = (b + words[at + 1]) | 0;
    c = (c + words[at + 2]) | 0;
    d = (d + words[at + 3]) | 0;
    order = (order + (a ^ (b << 1) ^ (c << 2) ^ (d << 3))) | 0;
  }
  return [(a ^ b ^ c ^ d) >>> 0, order >>> 0];
}

const place = () => navigator.storage.getDirectory();

async function opened(name, { create = false, mode = "readwrite" } = {}) {
  const file = await (await place()).getFileHandle(name, { create });
  return file.createSyncAccessHandle({ mode }); // two workers may read at once
}

// What is kept of this mark, whole: {head, bytes, at}; null where there is nothing to be used.
export async function kept(mark) {
  let file;
  try {
    file = await opened(NAME, { mode: "read-only" });
  } catch {
    return null; // never made, or denied, or no such place in this browser
  }
  try {
    const bytes = new Uint8Array(file.getSize());
    if (file.read(bytes, { at: 0 }) !== bytes.length) return null;
    const [magic, size, one, two, all] = new Uint32Array(bytes.buffer, 0, MARKS);
    if (magic !== MAGIC || all !== bytes.length) return null; // cut short
    new Uint32Array(bytes.buffer, 0, MARKS).fill(0, 2, 4);
    const [its, other] = sums(bytes);
    if (its !== one || other !== two) return null;
    const head = JSON.parse(new TextDecoder().decode(bytes.subarray(MARKS * 4, MARKS * 4 + size)));
    return head.mark === mark ? { head, bytes, at: padded(MARKS * 4 + size) } : null;
  } catch (error) {
    console.warn(error);
    return null;
  } finally {
    file.close();
  }
}

export const drop = () => remove(NAME); // where another worker reads it, the sums tell

async function remove(name) {
  try {
    await (await place()).removeEntry(name);
  } catch {
    // there is none, or another tab holds it
  }
}

// For the worker of the screens, the first to fill the memory in: one that was begun with and never came to its end
// may be the cause, and would be at each start. The note is held open until then, so that another tab cannot read it
// meanwhile. Where there can be no note, the memory is used without.
export async function attempt() {
  let note = null;
  try {
    note = await opened(TRYING, { create: true });
  } catch {
    // denied, or another tab fills it in just now: no reason to do without
  }
  let begun = false;
  return {
    // Whether it may be filled in.
    begin() {
      try {
        if (note?.getSize()) return false;
        note?.write(new Uint8Array(1), { at: 0 }); // not flushed: it outlives the browser, and a power cut is no sign
        begun = true;
      } catch (error) {
        console.warn(error); // no room
      }
      return true;
    },
    // Python is up, `from` the memory or not.
    end(from) {
      try {
        if (begun) note?.truncate(0);
        note?.close();
      } catch (error) {
        console.warn(error);
      }
      if (from) remove(NOTE);
    },
  };
}

// Whether this phone is to make one of this mark: told once before each try.
export async function wanted(mark) {
  try {
    const { quota, usage } = await navigator.storage.estimate();
    if (quota - usage < ROOM) return false; // not all browsers say what is true: Page.makeRoom
    const note = await opened(NOTE, { create: true });
    try {
      const bytes = new Uint8Array(note.getSize());
      note.read(bytes, { at: 0 });
      const before = bytes.length ? JSON.parse(new TextDecoder().decode(bytes)) : {};
      const tries = before.mark === mark ? before.tries : 0;
      if (tries >= TRIES) return false;
      note.truncate(0);
      note.write(new TextEncoder().encode(JSON.stringify({ mark, tries: tries + 1 })), { at: 0 });
      note.flush();
    } finally {
      note.close();
    }
    return true;
  } catch {
    return false; // denied, or on plain http
  }
}

// Keep this interpreter as it is now. `files`: [path, content].
export async function keep(mark, { python, core }, files) {
  const module = python._module;
  blank(module);
  const heap = module.HEAPU8;
  const handle = Number(Object.entries(module.LDSO.loadedLibsByHandle).find(([, each]) => each === core.library)?.[0] || 0);
  const runs = filled(heap);
  const head = {
    mark,
    hiwire: python._api.serializeHiwireState(),
    handle,
    base: core.base,
    table: module.wasmTable.length,
    heap: heap.length,
    runs,
    files: files.map(([path, content]) => [path, content.length]),
  };
  const told = new TextEncoder().encode(JSON.stringify(head));
  const start = padded(MARKS * 4 + told.length);
  const all = start + runs.reduce((sum, [, size]) => sum + size, 0) + files.reduce((sum, [, { length }]) => sum + padded(length), 0);
  const bytes = new Uint8Array(all);
  bytes.set(told, MARKS * 4);
  let at = start;
  for (const [from, size] of runs) {
    bytes.set(heap.subarray(from, from + size), at);
    at += size;
  }
  for (const [, content] of files) {
    bytes.set(content, at);
    at += padded(content.length);
  }
  const marks = new Uint32Array(bytes.buffer, 0, MARKS);
  marks.set([MAGIC, told.length, 0, 0, all]);
  marks.set(sums(bytes), 2);
  const file = await opened(NAME, { create: true });
  try {
    file.truncate(0);
    if (file.write(bytes, { at: 0 }) !== all) throw new Error("no room");
    file.flush();
  } finally {
    file.close();
  }
  await remove(TRYING); // that was another
}

// What Python has freed still says what stood there: empty pages need not be kept.
function blank(module) {
  const top = () => module.HEAPU32[module._emscripten_get_sbrk_ptr() >>> 2];
  for (const size of [1 << 20, 1 << 16, 1 << 13]) {
    const taken = [];
    for (let before = top(); ; ) {
      const at = module._malloc(size) >>> 0;
      taken.push(at);
      if (top() !== before) break;
      module.HEAPU8.fill(0, at, at + size);
    }
    for (const at of taken) module._free(at);
  }
}

// [from, size] of what is not empty, page by page.
function filled(heap) {
  const words = new BigUint64Array(heap.buffer, 0, heap.length >> 3);
  const runs = [];
  for (let page = 0; page < heap.length; page += PAGE) {
    const end = (page + PAGE) >> 3;
    let at = page >> 3;
    while (at < end && words[at] === 0n) at += 1;
    if (at === end) continue;
    const last = runs.at(-1);
    if (last && last[0] + last[1] === page) last[1] += PAGE;
    else runs.push([page, PAGE]);
  }
  return runs;
}

// Into an interpreter that has not begun (python.js); what Pyodide is to be told of its own side.
export function fill(module, core, { head, bytes, at }) {
  if (core.base !== head.base || module.wasmTable.length !== head.table) throw new Error("expected the code where it was, found it elsewhere");
  const { length } = module.HEAPU8;
  if (head.heap > length && !module.growMemory(head.heap)) throw new Error("expected room for what was kept, found none");
  let until = 0;
  for (const [from, size] of head.runs) {
    if (until < length) module.HEAPU8.fill(0, until, Math.min(from, length));
    module.HEAPU8.set(bytes.subarray(at, at + size), from);
    at += size;
    until = from + size;
  }
  if (until < length) module.HEAPU8.fill(0, until, length);
  if (head.handle) module.LDSO.loadedLibsByHandle[head.handle] = core.library;
  return head.hiwire;
}

// The files that are no code: [path, content].
export function* filesOf({ head, bytes, at }) {
  at += head.runs.reduce((sum, [, size]) => sum + size, 0);
  for (const [path, size] of head.files) {
    yield [path, bytes.subarray(at, at + size)];
    at += padded(size);
  }
}
