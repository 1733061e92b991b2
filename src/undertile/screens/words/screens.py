"""What every screen says around its own part; jobs, papers, photos and history; English and Spanish."""

from __future__ import annotations

SCREENS: dict[str, tuple[str, str]] = {
    # the frame
    "next": ("Next", "Ahora"),
    "steps": ("Steps", "Pasos"),
    "jobs": ("Jobs", "Trabajos"),
    "language": ("Language", "Idioma"),
    "english": ("English", "English"),
    "spanish": ("Español", "Español"),
    "no-name": ("A job without a name", "Trabajo sin nombre"),
    "keep": ("Keep", "Guardar"),
    "kept": ("Kept: {number}", "Guardado: {number}"),
    "undone": ("Taken back: {number}", "Retirado: {number}"),
    "nothing-new": ("Nothing was changed.", "No se cambió nada."),
    "why": ("Why", "Por qué"),
    "not-said": ("not said", "sin decir"),
    "lacks": ("{where}: not used yet. Say: {what}.", "{where}: aún no se usa. Diga: {what}."),
    "expected-found": ("expected {expected}, found {found}", "se esperaba {expected} y hay {found}"),
    "is-should": ("{found}; expected {expected}", "{found}; se esperaba {expected}"),
    "lacking": ("Say this one: the others count only with it.", "Diga este: los otros cuentan solo con él."),
    "amiss-head": ("Kept; look at this:", "Guardado; mire esto:"),
    "mend-first": ("To be corrected first", "Corregir primero"),
    "left-out": ("This is not used as it stands.", "Esto no se usa como está."),
    "two-values": ("Two values stand", "Hay dos valores"),
    "settle-it": ("Settle it", "Aclararlo"),
    "empty": ("not measured", "sin medir"),
    "reach": ("cannot reach", "no se alcanza"),
    "withdrawn": ("taken back", "retirado"),
    "error-title": ("That does not work", "Eso no se puede"),
    "not-here": (
        "There is nothing at this address. Go back to the jobs.",
        "No hay nada en esta dirección. Vuelva a los trabajos.",
    ),
    "asked-for": ("Asked for:", "Se pidió:"),
    "asked-open": (
        "Nothing can be opened at this address: it only takes what a screen sends. Go back to the jobs.",
        "En esta dirección no se abre nada: solo recibe lo que manda una pantalla. Vuelva a los trabajos.",
    ),
    "asked-send": (
        "Nothing can be sent to this address; what was sent was not kept. Go back to the jobs and type it "
        "there.",
        "A esta dirección no se manda nada; lo mandado no se guardó. Vuelva a los trabajos y escríbalo ahí.",
    ),
    "no-bundle": (
        "The tool for phones is not made yet. It takes about a minute, once, and the laptop needs a network "
        "for it: look at the window that undertile serve runs in, then load this page again.",
        "La herramienta para teléfonos aún no está hecha. Tarda un minuto, una sola vez, y la computadora "
        "necesita red: mire la ventana donde corre undertile serve y cargue esta página otra vez.",
    ),
    "job-not-here": (
        "This job is not on this device. Copy it here first, or go back to the jobs.",
        "Este trabajo no está en este aparato. Cópielo primero o vuelva a los trabajos.",
    ),
    "too-big": (
        "Expected at most {most}, found more; send less at once.",
        "Se esperaban {most} como máximo; mande menos a la vez.",
    ),
    "from-elsewhere": (
        "This was sent from another page. Type it here.",
        "Esto lo mandó otra página. Escríbalo aquí.",
    ),
    "fault": (
        "Something broke here. What was typed is kept. Go back and try again.",
        "Algo falló aquí. Lo escrito está guardado. Vuelva e intente otra vez.",
    ),
    "next-broken": (
        "{part}: something broke. Take back what was typed last, or correct it in the record",
        "{part}: algo falló. Retire lo último escrito, o corríjalo en el registro",
    ),
    "next-broken-part": ("This job", "Este trabajo"),
    "next-broken-why": (
        "What was typed is kept, and the other parts stand.",
        "Lo escrito está guardado, y las otras partes siguen.",
    ),
    # jobs
    "next-open": ("Open the last job", "Abra el último trabajo"),
    "next-first-job": ("Start a job", "Empiece un trabajo"),
    "new-job": ("New job", "Trabajo nuevo"),
    "start-job": ("Start", "Empezar"),
    "try-head": ("A job to try it on", "Un trabajo para probar"),
    "try-said": (
        "Invented rooms, a slip or two planted in some. Each opens as a job of its own.",
        "Cuartos inventados, algunos con un error o dos a propósito. Cada uno se abre como trabajo aparte.",
    ),
    "try-none": (
        "expected one of the bundled jobs ({known}), found {name}; choose one from the list",
        "se esperaba uno de los trabajos incluidos ({known}), llegó {name}; elija uno de la lista",
    ),
    "job-values": ("{entries} values, {photos} photos", "{entries} valores, {photos} fotos"),
    "file-open": ("A job from a file", "Un trabajo desde un archivo"),
    "file-open-said": (
        "A job file (.toml) begins a new job. A copy of a job (.zip, .jsonl) is added to the same job here, "
        "or begins it; nothing that is here is taken away. At most {most}.",
        "Un archivo de trabajo (.toml) empieza un trabajo nuevo. Una copia (.zip, .jsonl) se suma al mismo "
        "trabajo aquí, o lo empieza; nada de lo que hay aquí se quita. {most} como máximo.",
    ),
    "file-which": ("File", "Archivo"),
    "file-open-key": ("Open", "Abrir"),
    "file-out": ("Jobs as files", "Trabajos como archivos"),
    "file-out-said": (
        "The copy has everything, history and photos too, to be opened on another device. The job file is "
        "text: what stands now, without history and photos, and without what two entries leave in doubt.",
        "La copia lo tiene todo, también historial y fotos, para abrirla en otro aparato. El archivo de "
        "trabajo es texto: lo que vale ahora, sin historial ni fotos ni lo que dos registros dejan en duda.",
    ),
    "file-whole": ("Copy (.zip)", "Copia (.zip)"),
    "file-job": ("Job file (.toml)", "Archivo (.toml)"),
    "file-none": (
        "Expected a file, found none or an empty one. Choose one and send it again.",
        "Se esperaba un archivo, no llegó ninguno o llegó vacío. Elija uno y mándelo otra vez.",
    ),
    "file-backup": (
        "Expected one job, found a backup of all jobs. On the laptop: undertile restore FILE brings it in.",
        "Se esperaba un trabajo, llegó una copia de todos. En la computadora, undertile restore la trae.",
    ),
    "file-larger-phone": (
        "Expected a file of at most {most} here, found a larger one; nothing was taken in. Open it on the "
        "laptop: this phone gets it when the two meet.",
        "Se esperaba un archivo de {most} como máximo, llegó uno mayor; no se tomó nada. Ábralo en la "
        "computadora: este teléfono lo recibe cuando los dos se encuentran.",
    ),
    "file-larger-server": (
        "Expected a file of at most {most} here, found a larger one; nothing was taken in. Have it sent as a "
        "backup (undertile backup) and bring that in with undertile restore.",
        "Se esperaba un archivo de {most} como máximo, llegó uno mayor; no se tomó nada. Pida una copia de "
        "todo (undertile backup) y tráigala con undertile restore.",
    ),
    "file-problems": (
        "This file cannot be used: {number} problems. Nothing was taken in.",
        "Este archivo no sirve: {number} problemas. No se tomó nada.",
    ),
    "file-more": ("and {number} more like these", "y {number} más como estos"),
    "file-part": (
        "{new} values came in. Not taken in is what follows; the rest is safe.",
        "Entraron {new} valores. No entró lo que sigue; lo demás está a salvo.",
    ),
    "took": (
        "From the file: {new} values new here, {known} known already.",
        "Del archivo: {new} valores nuevos aquí, {known} ya conocidos.",
    ),
    "took-other": (
        "{number} came with another content under a known number: both are kept, see what is in doubt.",
        "{number} llegaron con otro contenido bajo un número conocido: se guardan los dos, vea lo dudoso.",
    ),
    # what is next
    "next-unit": ("Say inches or mm", "Diga pulgadas o mm"),
    "next-clash": (
        "Settle what was typed twice ({number})",
        "Aclare lo que se escribió dos veces ({number})",
    ),
    "next-doubt": ("Read {where} again", "Lea otra vez {where}"),
    "next-room": ("Say which walls and studs there are", "Diga qué paredes y montantes hay"),
    "next-left-out": ("Mend what cannot be used ({number})", "Corrija lo que no se puede usar ({number})"),
    "next-read": ("Read the {wall}: {left} to go", "Lea la {wall}: faltan {left}"),
    "next-pan": ("Measure the pan over its flanges", "Mida la base con sus pestañas"),
    "next-checks": ("Measure the widths and diagonals", "Mida los anchos y las diagonales"),
    "next-plan": ("See what to do to each stud", "Vea qué hacer en cada montante"),
    "next-no-plan": ("No plan meets everything: see why", "Ningún plan cumple todo: vea por qué"),
    "next-stop": ("STOP: see what comes first", "ALTO: vea qué va primero"),
    "next-start": ("Start with {stud}", "Empiece con {stud}"),
    "next-work": ("{stud} next; {left} studs left", "Sigue {stud}; faltan {left} montantes"),
    "next-recheck": ("Read again what was worked on", "Lea otra vez lo trabajado"),
    "next-look": ("{where} stands out: look at it again", "{where} llama la atención: vuelva a mirar"),
    "next-proof": ("See the proof", "Vea la prueba"),
    "next-move": (
        "Move a wall: −\u00a0back, +\u00a0into the room",
        "Mueva una pared: −\u00a0atrás, +\u00a0al\u00a0cuarto",
    ),
    "next-papers": ("Print the crew sheet", "Imprima la hoja de trabajo"),
    "next-photo": (
        "Take each wall square-on before it is covered",
        "Tome cada pared de frente antes de taparla",
    ),
    "next-photo-of": ("Take a photo: {what}, {stage}", "Tome una foto: {what}, {stage}"),
    "next-photo-square": ("Square on, a tape in it.", "De frente, con una cinta."),
    # the steps
    "step-room": ("Room", "Cuarto"),
    "step-pan": ("Pan, drain, valve", "Base, desagüe, válvula"),
    "step-read": ("Read the walls", "Leer las paredes"),
    "step-doubts": ("What looks wrong", "Lo que parece mal"),
    "step-plan": ("What to do", "Qué hacer"),
    "step-more": ("Does the pan drop in", "¿Entra la base?"),
    "step-moves": ("Move a wall", "Mover una pared"),
    "step-work": ("Do it", "Hacerlo"),
    "step-recheck": ("Read again", "Leer otra vez"),
    "step-proof": ("Proof", "Prueba"),
    "step-papers": ("Papers", "Papeles"),
    "step-photos": ("Photos", "Fotos"),
    "step-history": ("Who typed what", "Quién escribió qué"),
    "state-read": ("{done} of {of} read", "{done} de {of} leídas"),
    "state-doubts": ("{number} to settle", "{number} por aclarar"),
    "state-no-doubts": ("nothing found", "nada"),
    "state-planned": ("{number} studs", "{number} montantes"),
    "state-work": ("{done} of {of} done", "{done} de {of} hechos"),
    "state-reread": ("{number} studs read again", "{number} montantes leídos otra vez"),
    "state-photos": ("{number}", "{number}"),
    "state-history": ("{number} values", "{number} valores"),
    # papers
    "paper-crew": ("Crew sheet", "Hoja de trabajo"),
    "paper-form": ("Survey form, blank boxes", "Hoja de medidas, cuadros en blanco"),
    "paper-proof": ("Proof of the walls", "Prueba de las paredes"),
    "print": ("Print", "Imprimir"),
    "print-note": (
        "Print from the browser's own menu, or keep it as a PDF there.",
        "Imprima desde el menú del navegador, o guárdelo ahí como PDF.",
    ),
    "drawing-larger": ("Drawing larger", "Dibujo más grande"),
    "slide": ("Slide sideways to see more", "Deslice de lado para ver más"),
    "filled-of": ("{done} of {of}", "{done} de {of}"),
    "entered-of": ("{number} entered", "hay {number}"),
    "print-here": ("From this page", "Desde esta página"),
    "files-here": ("As files", "Como archivos"),
    "in-english": ("In English", "In English"),
    "in-spanish": ("En español", "En español"),
    # photos
    "take-photo": ("Take a photo", "Tomar una foto"),
    "photo-of": ("Of what", "De qué"),
    "photo-stage": ("When", "Cuándo"),
    "photo-fact": ("Photo {digits}", "Foto {digits}"),
    "photo-height": ("Height", "Altura"),
    "photo-note": ("Note", "Nota"),
    "photos-missing": ("Not taken yet", "Falta tomar"),
    "photo-none": ("No photos yet.", "Todavía no hay fotos."),
    "photo-cannot": ("Photos cannot be taken in here.", "Aquí no se pueden guardar fotos."),
    "the-room": ("the room", "el cuarto"),
    "all-photos": ("All photos", "Todas las fotos"),
    "stage-opened": ("opened", "abierto"),
    "stage-repaired": ("repaired", "reparado"),
    "stage-trued": ("trued, marks visible", "a plomo, con marcas"),
    "stage-straightedge": ("under the straightedge", "con la regla larga"),
    "stage-blocked": ("blocked", "con bloqueo"),
    "stage-plumbed": ("plumbed", "con tubería"),
    "stage-covered": ("before it is covered", "antes de tapar"),
    "stage-other": ("other", "otro"),
    # history
    "who": ("who", "quién"),
    "device": ("device", "aparato"),
    "this-device": ("this device", "este aparato"),
    "device-unnamed": ("device {digits}", "aparato {digits}"),
    "with": ("with", "con"),
    "stands": ("stands", "vale"),
    "replaced": ("replaced", "cambiado"),
    "by-undo": ("undo", "retirar"),
    "by-unit": ("its unit written to it", "su unidad escrita"),
    "undo-last": ("Take back the last one typed here", "Retirar lo último escrito aquí"),
    "use-again": ("Use this again", "Usar este otra vez"),
    "older": ("{number} older ones", "{number} anteriores"),
    "change-it": ("Change it", "Cambiarlo"),
}
"""Key to (English, Spanish)."""
