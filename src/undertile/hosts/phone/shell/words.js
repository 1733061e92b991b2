// What the page itself says, before and beside Python. The screens bring their own words.

const EN = {
  title: "Undertile",
  starting: "Starting …",
  fetching: "Getting the tool ready …",
  "fetching-of": "Fetching the tool: {done} of {all} MB",
  before: "As it was. The tool is starting …",
  ready: "",
  slow: "Still starting. What you type is kept meanwhile.",
  stuck:
    "The tool did not start in this browser. Every value you typed is kept here. Close other pages and open this " +
    "one again; if it stays so, save a copy and go on at the laptop, which shows the same screens.",
  restarting: "The tool stopped and is starting again. Nothing typed is lost.",
  dead:
    "The tool stopped several times and was not started again. Every value you typed is kept here: save a copy, " +
    "then open this page again.",
  taken: "{all} kept here",
  open: "{open} not yet copied",
  "all-copied": "all copied elsewhere",
  "none-kept": "Nothing is kept here yet.",
  "kept-copied": "{all} kept here, all copied elsewhere.",
  "kept-open": "{all} kept here; {open} of them are in no copy elsewhere yet.",
  "not-counted": "What is kept here is not counted yet.",
  copy: "Save a copy",
  "copy-which": "Save a copy of which job?",
  copied:
    "In a file on this phone, not elsewhere yet: {name}. It would be lost with the phone: send it on, or meet the laptop.",
  elsewhere: "It is elsewhere now",
  "elsewhere-said": "Counted as copied: {name} is elsewhere, you said.",
  "in-file": "{open} of them in a file on this phone: {name}",
  "copy-none": "Nothing to copy yet.",
  "take-in": "Take in a copy",
  "took-in": "{new} new, {known} known already.",
  "file-larger":
    "Expected a file of at most {most} here, found a larger one; nothing was taken in. Open it on the laptop: this " +
    "phone gets it when the two meet.",
  "took-in-other": "{other} with an id that is known with another content; both are kept, see what is in doubt.",
  denied:
    "This browser lets nothing be kept here (a private window, or storage is switched off). A value typed now " +
    "would be lost, so none is taken. Open this page in a normal window.",
  full:
    "This phone has no room left: the value was not kept. Free some space (photos, other apps), then type it " +
    "again. All values shown as kept are safe.",
  newer:
    "A newer version of this tool has kept values here. This page is older and takes nothing any more: close it " +
    "and open it again. Nothing is lost.",
  late:
    "The browser has not opened this phone's storage. What it holds is not touched; a value typed now is not kept until " +
    "it opens. Close other tabs of this tool; if this stays, end the browser and start it anew.",
  closed: "The phone's storage was closed. Open this page again; values shown as kept are safe.",
  "brought-back": "The browser had thrown away {number} values; they were brought back. Save a copy.",
  broken:
    "This phone's storage could not take the value: it was not kept. Values shown as kept are safe. Save a copy of " +
    "them, free some space, then try again.",
  gone:
    "The browser closed this phone's storage; it is being opened again. Values shown as kept are safe. If this stays, " +
    "open the page again.",
  "no-job": "No job is open: a value needs one. Nothing was kept.",
  "undo-none": "Nothing of this phone is left to take back here.",
  "undo-replaced": "Somebody has replaced it since, so it was not taken back. Type the value you want.",
  "undo-elsewhere": "What it replaced is not on this phone yet. Meet the laptop first, or type the value.",
  refused: "{number} entries of a newer or unknown kind are kept, and not used by this version.",
  raced: "Another tab wrote at the same moment. Do it once more.",
  "not-taken": "Not kept: {value}",
  update: "A newer version is on this phone.",
  use: "Use it now",
  "no-worker":
    "This page cannot be opened again without a network: the browser offers no offline storage here (plain http, " +
    "or a private window). Values typed are kept all the same.",
  "whole-asking": "Looking whether the whole tool is on this phone …",
  "whole-yes": "The whole tool is on this phone: it opens without a network.",
  "whole-part":
    "Not all of the tool is on this phone yet: {done} of {all} files. Stay by the network with this page open.",
  "whole-next": "Every file of the tool is on this phone, but this page does not use them yet: open it once more.",
  "whole-none":
    "The tool is not on this phone: without a network it does not open. Open this page again where the network is better.",
  "whole-unknown":
    "Whether the whole tool is on this phone is not known: the browser does not answer. Open this page again before the " +
    "network goes off.",
  "whole-now": "The whole tool is on this phone now: it opens without a network.",
  "whole-install": "Next: add this page to the home screen.",
  "bundle-failed": "The newer version did not arrive whole ({trouble}). The one on this phone goes on.",
  "first-failed": "The tool did not arrive whole ({trouble}). Open this page again where the network is better.",
  "persist-yes": "The browser has promised to keep what is here.",
  "persist-no": "The browser may clear this page's storage when the phone runs short: install it, and save copies.",
  "persist-unknown": "The browser does not say whether it keeps what is here: install it, and save copies.",
  "not-installed": "Not installed: add this page to the home screen, or a phone may clear it after some days.",
  "low-space": "Little room is left on this phone: about {free} MB.",
  phone: "This phone",
  who: "Your name, as it stands beside each reading",
  language: "Language",
  instrument: "Read with (tape, laser, …)",
  keep: "Keep",
  close: "Close",
  back: "Jobs",
  version: "Version {version}",
  "file-unread": "The file could not be read: {trouble}. Nothing was kept of it; choose it again.",
  "fault-page": "This screen could not be shown: {trouble}. Nothing typed is lost.",
  waiting: "The tool is starting; this screen comes in a moment.",
  "as-last": "As last shown, not worked out anew yet.",
  others: "Another tab has added values.",
  "no-script": "This tool needs JavaScript on a phone. On a laptop, undertile serve shows the same screens without.",
  "sync-stranger":
    "The laptop does not know this phone (not paired, taken off, or not seen for half a year). What is typed is kept " +
    "here; with the laptop's code both exchange again.",
  "sync-pair": "Pair",
  "sync-code": "Code that the laptop shows",
  "sync-refused": "The laptop did not take it: {trouble}",
  "sync-differs": "Phone and laptop do not hold the same: one of them refuses something. Nothing is lost; save a copy.",
  "sync-away": "The laptop does not answer. Nothing is lost; it is tried again by itself.",
};

const ES = {
  title: "Undertile",
  starting: "Arrancando …",
  fetching: "Preparando la herramienta …",
  "fetching-of": "Descargando: {done} de {all} MB",
  before: "Como estaba. La herramienta está arrancando …",
  ready: "",
  slow: "Sigue arrancando. Lo que escriba se guarda mientras tanto.",
  stuck:
    "La herramienta no arrancó en este navegador. Todo lo que escribió está guardado aquí. Cierre otras páginas y " +
    "abra esta de nuevo; si sigue igual, guarde una copia y continúe en la computadora, que muestra lo mismo.",
  restarting: "La herramienta se detuvo y arranca de nuevo. No se pierde nada de lo escrito.",
  dead:
    "La herramienta se detuvo varias veces y no se arrancó de nuevo. Todo lo que escribió está guardado: guarde una " +
    "copia y abra esta página otra vez.",
  taken: "{all} guardados aquí",
  open: "{open} sin copiar",
  "all-copied": "todo copiado fuera",
  "none-kept": "Aquí no hay nada guardado todavía.",
  "kept-copied": "{all} guardados aquí, todo copiado fuera.",
  "kept-open": "{all} guardados aquí; {open} aún sin copia en otra parte.",
  "not-counted": "Lo guardado aquí aún no está contado.",
  copy: "Guardar copia",
  "copy-which": "¿Copia de qué trabajo?",
  copied:
    "En un archivo de este teléfono, aún no en otra parte: {name}. Se perdería con él: mándelo, o pase por la computadora.",
  elsewhere: "Ya está en otra parte",
  "elsewhere-said": "Cuenta como copia: usted dijo que {name} está en otra parte.",
  "in-file": "{open} de ellos en un archivo de este teléfono: {name}",
  "copy-none": "Todavía no hay nada que copiar.",
  "take-in": "Traer una copia",
  "took-in": "{new} nuevos, {known} ya conocidos.",
  "file-larger":
    "Se esperaba un archivo de {most} como máximo, llegó uno mayor; no se tomó nada. Ábralo en la computadora: este " +
    "teléfono lo recibe cuando los dos se encuentran.",
  "took-in-other": "{other} con un id conocido y otro contenido; se guardan los dos, vea lo dudoso.",
  denied:
    "Este navegador no deja guardar nada aquí (ventana privada o almacenamiento apagado). Un valor escrito ahora se " +
    "perdería, así que no se toma ninguno. Abra esta página en una ventana normal.",
  full:
    "No queda espacio en este teléfono: el valor no se guardó. Libere espacio (fotos, otras apps) y escríbalo de " +
    "nuevo. Todo lo mostrado como guardado está a salvo.",
  newer:
    "Una versión más nueva de esta herramienta ha guardado valores aquí. Esta página es más vieja y ya no toma nada: " +
    "ciérrela y ábrala de nuevo. No se pierde nada.",
  late:
    "El navegador no ha abierto el almacenamiento de este teléfono. Lo que hay en él no se toca; lo que escriba ahora no " +
    "queda guardado hasta que se abra. Cierre otras pestañas de esta herramienta; si sigue, cierre el navegador y ábralo de nuevo.",
  closed: "Se cerró el almacenamiento del teléfono. Abra esta página de nuevo; lo guardado está a salvo.",
  "brought-back": "El navegador había borrado {number} valores; se recuperaron. Guarde una copia.",
  broken:
    "El almacenamiento de este teléfono no pudo tomar el valor: no se guardó. Lo mostrado como guardado está a salvo. " +
    "Guarde una copia, libere espacio e inténtelo de nuevo.",
  gone:
    "El navegador cerró el almacenamiento de este teléfono; se está abriendo otra vez. Lo mostrado como guardado está " +
    "a salvo. Si esto sigue, abra la página de nuevo.",
  "no-job": "No hay trabajo abierto: un valor necesita uno. No se guardó nada.",
  "undo-none": "Aquí no queda nada de este teléfono por deshacer.",
  "undo-replaced": "Alguien ya lo cambió después, así que no se deshizo. Escriba el valor que quiere.",
  "undo-elsewhere": "Lo que reemplazó aún no está en este teléfono. Conéctelo con la computadora, o escriba el valor.",
  refused: "{number} entradas de un tipo nuevo o desconocido se guardan, pero esta versión no las usa.",
  raced: "Otra pestaña escribió en el mismo momento. Hágalo otra vez.",
  "not-taken": "No se guardó: {value}",
  update: "Hay una versión más nueva en este teléfono.",
  use: "Usarla ya",
  "no-worker":
    "Esta página no se puede abrir de nuevo sin red: el navegador no ofrece almacenamiento sin conexión (http simple " +
    "o ventana privada). Lo escrito se guarda igual.",
  "whole-asking": "Mirando si toda la herramienta está en este teléfono …",
  "whole-yes": "Toda la herramienta está en este teléfono: se abre sin red.",
  "whole-part":
    "Aún no está toda la herramienta en este teléfono: {done} de {all} archivos. Quédese donde hay red con esta página abierta.",
  "whole-next": "Todos los archivos están en este teléfono, pero esta página aún no los usa: ábrala una vez más.",
  "whole-none":
    "La herramienta no está en este teléfono: sin red no se abre. Abra esta página de nuevo donde haya mejor red.",
  "whole-unknown":
    "No se sabe si toda la herramienta está en este teléfono: el navegador no contesta. Abra esta página de nuevo antes de " +
    "quedarse sin red.",
  "whole-now": "Toda la herramienta está ya en este teléfono: se abre sin red.",
  "whole-install": "Lo siguiente: agregue esta página a la pantalla de inicio.",
  "bundle-failed": "La versión nueva no llegó entera ({trouble}). Sigue la que está en este teléfono.",
  "first-failed": "La herramienta no llegó entera ({trouble}). Abra esta página de nuevo con mejor red.",
  "persist-yes": "El navegador ha prometido guardar lo que hay aquí.",
  "persist-no": "El navegador puede borrar esto cuando falte espacio: instálela y guarde copias.",
  "persist-unknown": "El navegador no dice si guarda lo que hay aquí: instálela y guarde copias.",
  "not-installed": "Sin instalar: agregue esta página a la pantalla de inicio, o el teléfono puede borrarla en unos días.",
  "low-space": "Queda poco espacio en este teléfono: unos {free} MB.",
  phone: "Este teléfono",
  who: "Su nombre, como aparece junto a cada lectura",
  language: "Idioma",
  instrument: "Leído con (cinta, láser, …)",
  keep: "Guardar",
  close: "Cerrar",
  back: "Trabajos",
  version: "Versión {version}",
  "file-unread": "No se pudo leer el archivo: {trouble}. No se guardó nada de él; elíjalo otra vez.",
  "fault-page": "No se pudo mostrar esta pantalla: {trouble}. No se pierde nada de lo escrito.",
  waiting: "La herramienta está arrancando; esta pantalla viene enseguida.",
  "as-last": "Como se mostró la última vez, aún sin recalcular.",
  others: "Otra pestaña agregó valores.",
  "no-script": "En un teléfono esta herramienta necesita JavaScript.",
  "sync-stranger":
    "La computadora no conoce este teléfono (sin vincular, quitado, o sin venir en medio año). Lo escrito se guarda " +
    "aquí; con el código de la computadora vuelven a intercambiar.",
  "sync-pair": "Vincular",
  "sync-code": "Código que muestra la computadora",
  "sync-refused": "La computadora no lo tomó: {trouble}",
  "sync-differs": "Teléfono y computadora no tienen lo mismo: uno de los dos rechaza algo. No se pierde nada; guarde una copia.",
  "sync-away": "La computadora no responde. No se pierde nada; se intenta de nuevo solo.",
};

const ALL = { en: EN, es: ES };
let own = "en";

export const languages = () => Object.keys(ALL);
export const language = () => own;
export function speak(wanted) {
  own = ALL[wanted] ? wanted : "en";
  document.documentElement.lang = own;
}
export function say(key, told = {}) {
  return (ALL[own][key] ?? EN[key] ?? key).replace(/\{(\w+)\}/g, (all, name) => told[name] ?? all);
}
// For the tests: every key is in every language, with the same blanks.
export const everything = ALL;
