// Runs compile.py inside Pyodide under Node: only the interpreter that will run the code can compile it.
// node compile.mjs FOLDER_OF_PYODIDE FOLDER_TO_SHOW_AS_/work  SCRIPT
import { pathToFileURL } from "node:url";
import { readFileSync } from "node:fs";
import { join } from "node:path";

const [pyodideFolder, work, script] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(pyodideFolder, "pyodide.mjs")).href);
// Each step of the code knows its line. Its columns only serve to underline a text that is not on the phone: a fifth of all.
const python = await loadPyodide({ indexURL: pyodideFolder, env: { PYTHONNODEBUGRANGES: "1" } });
python.mountNodeFS("/mnt/pack", work);
try {
  python.runPython(readFileSync(script, "utf-8"));
} catch (error) {
  process.stderr.write(`${error.message}\n`); // not Node's own report: it prints a line of a million letters
  process.exitCode = 1;
}
