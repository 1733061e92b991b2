// Python in Pyodide under Node, with the bundle's own packages: what the phone runs, without a browser.
// node innode.mjs FOLDER_OF_PYODIDE STDLIB_ZIP SCRIPT MOUNT=FOLDER ... -- arguments for the script
import { pathToFileURL } from "node:url";
import { readFileSync } from "node:fs";
import { join } from "node:path";

const [pyodideFolder, stdlib, script, ...rest] = process.argv.slice(2);
const mounts = rest.slice(0, rest.indexOf("--"));
const words = rest.slice(rest.indexOf("--") + 1);
const { loadPyodide } = await import(pathToFileURL(join(pyodideFolder, "pyodide.mjs")).href);
const python = await loadPyodide({
  indexURL: pyodideFolder,
  stdLibURL: stdlib,
  env: { HOME: "/home/pyodide", PYTHONNODEBUGRANGES: "1" }, // as compile.mjs
});
python.setStdout({
  write: (bytes) => {
    process.stdout.write(new Uint8Array(bytes)); // a copy: the interpreter uses its own again
    return bytes.length;
  },
});
for (const mount of mounts) {
  const [place, folder] = [mount.slice(0, mount.indexOf("=")), mount.slice(mount.indexOf("=") + 1)];
  if (/\.(zip|whl)$/.test(folder)) python.unpackArchive(new Uint8Array(readFileSync(folder)), folder.endsWith("whl") ? "wheel" : "zip", { extractDir: place });
  else python.mountNodeFS(place, folder);
}
python.globals.set("WORDS", python.toPy(words));
try {
  process.exitCode = Number(await python.runPythonAsync(readFileSync(script, "utf-8"))) || 0;
} catch (error) {
  process.stderr.write(`${error.message}\n`); // not Node's own report: it prints a line of a million letters
  process.exitCode = 1;
}
