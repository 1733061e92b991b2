"""What the reader of lengths refuses, in Spanish; ``strong`` and ``shy`` are typed as they are."""

from __future__ import annotations

LENGTHS: dict[str, str] = {
    "`{typed}`, which {said}": "`{typed}`, que {said}",
    "nothing was typed": "no se escribió nada",
    "a length like {like}": "una medida como {like}",
    "write {instead}": "escriba {instead}",
    "{do}; left out until then.": "{do}; hasta entonces no cuenta.",
    "3-15/16, 4' 2-1/2\" or 1203 mm": "3-15/16, 4' 2-1/2\" o 1203 mm",
    "one length like {like}": "una sola medida como {like}",
    "it like {like}": "algo como {like}",
    "{one} or {other}": "{one} o {other}",
    "{one} or {other}, as is meant": "{one} o {other}, lo que sea",
    # characters and words
    "is {count} characters, too long for one length": "tiene {count} letras, demasiado para una medida",
    "is in metres, which are not read here": "está en metros, que aquí no se leen",
    "mm, like 1203 mm": "mm, como 1203 mm",
    "has the word {word}, which is no unit read here": "tiene la palabra {word}, que no es unidad aquí",
    "has a comma, which marks thousands to one and a decimal to another": (
        "tiene una coma, que para uno son miles y para otro decimales"
    ),
    "it without one, like {like}": "la medida sin coma, como {like}",
    "has a point without a digit on both sides": "tiene un punto sin cifra a los dos lados",
    "it like 0.5 mm or 120 mm": "algo como 0.5 mm o 120 mm",
    "has {name}, no plain digit": "tiene {name}, que no es una cifra simple",
    "it with 0-9, like {like}": "la medida con 0-9, como {like}",
    "has {name}, which is no part of a length": "tiene {name}, que no es parte de una medida",
    # inches
    "has {whole} inches after the feet": "tiene {whole} pulgadas después de los pies",
    "has no inch mark, and the job is in mm": "no tiene marca de pulgada, y el trabajo está en mm",
    "{ruler} for inches, or mm like 120.5 mm": "{ruler} si son pulgadas, o mm como 120.5 mm",
    "has the fraction {shown}, which is no number": "tiene la fracción {shown}, que no es un número",
    "has the fraction {shown}, which is on no rule": "tiene la fracción {shown}, que ninguna regla tiene",
    "has the fraction {shown}, an improper fraction": "tiene la fracción {shown}, impropia",
    "is a whole number {word}, or a fraction cut short": "es un entero {word}, o una fracción a medias",
    '{number}" {word} if so, or all of the fraction like {number}-1/16': (
        '{number}" {word} si es así, o la fracción entera como {number}-1/16'
    ),
    "is the number {number} without a unit": "es el número {number} sin unidad",
    "has a minus in front and is {word}, which can mean two lengths": (
        "tiene un menos adelante y es {word}, lo que puede ser dos medidas"
    ),
    "is {word}, half a sixteenth, on a finer fraction": (
        "es {word}, medio dieciseisavo, sobre una fracción más fina"
    ),
    "is shy of nothing": "es menos que nada",
    "may be {first} feet or {first} inches": "puede ser {first} pies o {first} pulgadas",
    "is {first} and {second} without saying of what": "es {first} y {second} sin decir de qué",
    # no length
    "has no number in it": "no tiene ningún número",
    "mixes inches and mm": "mezcla pulgadas y mm",
    "it in one of them, like {like}": "la medida en uno de los dos, como {like}",
    "is a fraction of a mm": "es una fracción de mm",
    "it like 120.5 mm, or with an inch mark": "algo como 120.5 mm, o con marca de pulgada",
    "is strong or shy, which goes with inches": "es strong o shy, que va con pulgadas",
    "it like 120.5 mm": "algo como 120.5 mm",
    "has a fraction of a foot": "tiene una fracción de pie",
    "feet and inches like 4' 2-1/2\"": "pies y pulgadas como 4' 2-1/2\"",
    "has more than one sign in front": "tiene más de un signo adelante",
    "has strong or shy in the wrong place": "tiene strong o shy en mal lugar",
    "it behind, like 3/8 strong": "eso al final, como 3/8 strong",
    "is more than one number, not put together as one length": "son varios números que no forman una medida",
    "is a number with marks that do not go together": "es un número con marcas que no van juntas",
    "has a minus set apart, which may join or take away": "tiene un menos suelto, que puede unir o restar",
    "the hyphen close up, like {like}": "el guion pegado, como {like}",
    "{bare} mm, or for inches {instead}": "{bare} mm, o si son pulgadas {instead}",
    "is a decimal foot": "es un pie con decimales",
    "is a decimal inch": "es una pulgada con decimales",
}
"""Form to Spanish."""
