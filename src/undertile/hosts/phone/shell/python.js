// Python in this worker: begun the plain way, or from the memory that was kept (heap.js).

import { fill, filesOf } from "./heap.js";
import { unpack } from "./unzip.js";

const PACKAGES = "/lib/python3.14/site-packages";
const STDLIB = "/lib/python314.zip";
const CORE = `${PACKAGES}/pydantic_core/_pydantic_core.cpython-314-wasm32-emscripten.so`;
const AHEAD = "undertile/hosts/phone/ahead.pyc";
const HEAD = 16; // bytes before the code in a compiled file
const ZIPS = ["py/packages.zip", "py/undertile.zip"];
const BEGIN = `import marshal, sys, types
made = sys.modules["undertile_ahead"] = types.ModuleType("undertile_ahead")
exec(marshal.loads(code), made.__dict__)
`;

// All that a start needs from the bundle, asked for at once.
export function fetched(base) {
  const response = async (path) => {
    const found = await fetch(new URL(path, base));
    if (!found.ok) throw new Error(`${path}: ${found.status}`);
    return found;
  };
  const code = async (path) => WebAssembly.compileStreaming(await response(path));
  const bytes = async (path) => new Uint8Array(await (await response(path)).arrayBuffer());
  const all = {
    loader: import(new URL("py/pyodide.mjs", base)),
    module: import(new URL("py/pyodide.asm.mjs", base)),
    code: code("py/pyodide.asm.wasm"),
    core: code("py/core.wasm"),
  };
  for (const each of Object.values(all)) each.catch(() => {});
  inPlaceOf(all.code);
  return { ...all, base, zips: () => Promise.all(ZIPS.map(bytes)) };
}

// Pyodide asks for its own code once its loader is read. It has been coming, and being compiled, since this worker began.
function inPlaceOf(code) {
  const { instantiateStreaming } = WebAssembly;
  WebAssembly.instantiateStreaming = async (asked, imports) => {
    const found = await asked;
    if (!found.url.endsWith("/py/pyodide.asm.wasm")) return instantiateStreaming(found, imports);
    found.body?.cancel().catch(() => {});
    const module = await code;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  };
}

// What is written in Rust goes in before Python begins, so that it lies at the same place in every interpreter.
function withCore(parts, told, then) {
  return async (settings) => {
    settings.preRun.push((module) => {
      const library = module.newDSO(CORE, undefined, "loading");
      Object.assign(library, { refcount: Infinity, global: false });
      const note = module.stackAlloc(48); // where it was put is written here
      module.addRunDependency("core");
      const put = async () => {
        const flags = { loadAsync: true, nodelete: true, global: false };
        library.exports = await module.loadWebAssemblyModule(await parts.core, flags, CORE, {}, note);
        Object.assign(told, { library, base: module.HEAPU32[(note + 12) >>> 2] });
        module.removeRunDependency("core");
      };
      put().catch(told.fail);
    });
    const { default: make } = await parts.module;
    return then(await make(settings));
  };
}

async function load(parts, { making = false, heap = null, stdlib }) {
  const core = {};
  const failed = new Promise((_, fail) => (core.fail = fail));
  const { loadPyodide } = await parts.loader;
  const filledIn = (module) => {
    if (heap) module.API.restoreSnapshot = () => fill(module, core, heap);
    return module;
  };
  const loading = loadPyodide({
    indexURL: new URL("py/", parts.base).href,
    stdLibURL: new URL(stdlib, parts.base).href,
    stdout: () => {},
    stderr: (text) => console.warn(text),
    createPyodideModule: withCore(parts, core, filledIn),
    ...(making && { _makeSnapshot: true }),
    ...(heap && { _loadSnapshot: new Uint8Array(4) }), // what it would be told is filled in by `fill`
  });
  const python = await Promise.race([loading, failed]);
  if (heap) python._api.restoreSnapshot = null; // what was read is let go
  return { python, core };
}

// The plain way. `making`: its memory is to be kept. {python, core, ahead, read, files}
export async function plain(parts, { making = false, tell = () => {} } = {}) {
  const coming = parts.zips();
  coming.catch(() => {});
  const { python, core } = await load(parts, { making, stdlib: "py/stdlib.zip" });
  tell("python");
  python.FS.mkdirTree(CORE.slice(0, CORE.lastIndexOf("/")));
  python.FS.writeFile(CORE, new Uint8Array(1)); // it is loaded already; Python looks whether it is there
  const files = [];
  const zips = await coming;
  const modules = zips.map((zip) => unpack(python.FS, zip, PACKAGES, files));
  tell("unpacked");
  const content = zips.at(-1);
  const [, from, size] = modules.at(-1).find(([name]) => name === AHEAD);
  const names = python.toPy({ code: content.subarray(from + HEAD, from + size) });
  python.runPython(BEGIN, { globals: names });
  names.destroy();
  const read = (which, start, end) => zips[which].subarray(start, end);
  const began = python.pyimport("undertile_ahead");
  const ahead = began.start(PACKAGES, read, JSON.stringify(modules));
  began.destroy();
  return { python, core, ahead, read, files };
}

// From the memory that was kept.
export async function again(parts, heap, { tell = () => {} } = {}) {
  const { python } = await load(parts, { heap, stdlib: "py/pyodide-lock.json" }); // the library itself: below
  tell("python");
  const { FS } = python;
  FS.mkdirTree(CORE.slice(0, CORE.lastIndexOf("/")));
  FS.writeFile(CORE, new Uint8Array(1));
  const made = new Set();
  for (const [path, content] of filesOf(heap)) {
    const folder = path.slice(0, path.lastIndexOf("/"));
    if (!made.has(folder)) FS.mkdirTree(folder);
    made.add(folder);
    FS.writeFile(path, content.slice(), { canOwn: true }); // the rest of what was read is let go
  }
  later(FS, STDLIB, () => now(new URL("py/stdlib.zip", parts.base)));
  tell("unpacked");
  const zips = [];
  const read = (which, start, end) => (zips[which] ||= now(new URL(ZIPS[which], parts.base))).subarray(start, end);
  const began = python.pyimport("undertile_ahead");
  const ahead = began.started();
  ahead.again(read);
  began.destroy();
  return { python, ahead };
}

// A file of the bundle, at once: only what nothing had asked for when the memory was kept is read so.
function now(url) {
  const asked = new XMLHttpRequest();
  asked.open("GET", url.href, false);
  asked.responseType = "arraybuffer";
  asked.send();
  if (asked.status !== 200) throw new Error(`${url.pathname}: ${asked.status}`);
  return new Uint8Array(asked.response);
}

// A file that is fetched when it is first read.
function later(FS, path, fetching) {
  FS.writeFile(path, new Uint8Array(0));
  const { node } = FS.lookupPath(path);
  let content = null;
  const whole = () => (content ||= fetching());
  Object.defineProperty(node, "contents", { get: whole });
  Object.defineProperty(node, "usedBytes", { get: () => whole().length });
}
