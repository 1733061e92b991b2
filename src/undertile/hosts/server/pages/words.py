"""What these pages say, in English and in Spanish."""

from __future__ import annotations

from collections.abc import Mapping

WORDS: Mapping[str, tuple[str, str]] = {
    "title": ("Undertile on your phone", "Undertile en su teléfono"),
    "lead": (
        "Three steps, once for each phone. Do them on your own network, at home or in the office.",
        "Tres pasos, una vez por teléfono. Hágalos en su propia red, en casa o en la oficina.",
    ),
    "get": ("1. Get this laptop's certificate", "1. Baje el certificado de esta computadora"),
    "get-why": (
        "With it the phone knows this laptop from any other, and the tool opens later without a "
        "network. It is "
        "good for the name {name} and for nothing else.",
        "Con él, el teléfono distingue esta computadora de cualquier otra, y la herramienta abre después sin "
        "red. Sirve para el nombre {name} y para nada más.",
    ),
    "get-key": ("Get the certificate", "Bajar el certificado"),
    "compare": (
        "Before you trust it, compare: the laptop's own page shows these digits (SHA-256), and the "
        "phone shows "
        "them under the certificate's details.",
        "Antes de confiar, compare: la página de la computadora muestra estos dígitos (SHA-256), y "
        "el teléfono "
        "los muestra en los detalles del certificado.",
    ),
    "trust": ("2. Trust it", "2. Confíe en él"),
    "iphone": ("iPhone, iPad", "iPhone, iPad"),
    "iphone-1": (
        "Open this page in Safari, press the key above and allow the download.",
        "Abra esta página en Safari, presione el botón de arriba y permita la descarga.",
    ),
    "iphone-2": (
        "Settings, Profile Downloaded (or General, VPN & Device Management): open “{anchor}”, press "
        "Install, type "
        "the phone's passcode.",
        "Ajustes, Perfil descargado (o General, VPN y gestión de dispositivos): abra «{anchor}», presione "
        "Instalar y escriba el código del teléfono.",
    ),
    "iphone-3": (
        "Settings, General, About, Certificate Trust Settings (at the very end): switch on “{anchor}”.",
        "Ajustes, General, Información, Configuración de confianza (al final): active «{anchor}».",
    ),
    "android": ("Android", "Android"),
    "android-1": (
        "Press the key above; the file goes to Downloads.",
        "Presione el botón de arriba; el archivo queda en Descargas.",
    ),
    "android-2": (
        "Settings, Security, Encryption & credentials, Install a certificate, CA certificate: press Install "
        "anyway, choose {file}. The words differ by maker: search the settings for “certificate”.",
        "Ajustes, Seguridad, Cifrado y credenciales, Instalar un certificado, Certificado de CA: presione "
        "Instalar de todos modos y elija {file}. Cambia según la marca: busque «certificado» en los ajustes.",
    ),
    "android-3": (
        "The phone then says that somebody may be watching the network. It says so for any "
        "certificate added by "
        "hand; this one can speak for {name} alone.",
        "El teléfono avisa que alguien podría vigilar la red. Lo dice de todo certificado puesto a "
        "mano; este "
        "solo puede hablar por {name}.",
    ),
    "open": ("3. Open the tool", "3. Abra la herramienta"),
    "open-how": (
        "It asks for the code that the laptop shows. Then add the page to the home screen: from "
        "there it opens "
        "without a network.",
        "Le pide el código que muestra la computadora. Después agregue la página a la pantalla de "
        "inicio: desde "
        "ahí abre sin red.",
    ),
    "iphone-own": (
        "On an iPhone add it to the home screen before you type anything, and go on from there: the "
        "installed page keeps a store of its own and asks for a code of its own.",
        "En un iPhone agréguela a la pantalla de inicio antes de escribir nada y siga desde ahí: la página "
        "instalada tiene su propio almacenamiento y pide su propio código.",
    ),
    "open-key": ("Open {name}", "Abrir {name}"),
    "not-opening": ("It does not open?", "¿No abre?"),
    "warns": (
        "The browser warns of the certificate: step 2 is not done. Do not click past it; the tool "
        "would not open "
        "without a network.",
        "El navegador advierte del certificado: falta el paso 2. No siga adelante; la herramienta no "
        "abriría sin "
        "red.",
    ),
    "no-name": (
        "The name is not found: phone and laptop must be in the same network (not a guest one), and "
        "the laptop's "
        "firewall must let the tool through. Some older Android phones know no such names.",
        "No encuentra el nombre: teléfono y computadora deben estar en la misma red (no la de "
        "invitados), y el "
        "cortafuegos de la computadora debe dejar pasar la herramienta. Algunos Android viejos no "
        "conocen estos "
        "nombres.",
    ),
    "other": ("Español", "English"),
    "pair": ("Pair this phone", "Vincule este teléfono"),
    "pair-lead": (
        "Type the code that the laptop shows now. It is good for one phone.",
        "Escriba el código que muestra ahora la computadora. Sirve para un teléfono.",
    ),
    "code": ("Code, {digits} digits", "Código, {digits} dígitos"),
    "name": (
        "Your name, as it stands beside what you type",
        "Su nombre, como aparece junto a lo que escriba",
    ),
    "pair-key": ("Pair", "Vincular"),
    "no-code": (
        "No code to be seen? On the laptop open {desk} and press New code.",
        "¿No ve ningún código? En la computadora abra {desk} y presione Código nuevo.",
    ),
    "wrong": (
        "Not that code. Look at the laptop again; the next one is looked at in {wait} s.",
        "Ese código no es. Mire otra vez la computadora; el siguiente se revisa en {wait} s.",
    ),
    "slow": (
        "Too soon after a wrong code: this one was not looked at. Wait {wait} s.",
        "Muy pronto tras un código equivocado: este no se revisó. Espere {wait} s.",
    ),
    "closed": (
        "No phone can be paired now. On the laptop open {desk} and press New code.",
        "Ahora no se puede vincular ningún teléfono. En la computadora abra {desk} y presione Código nuevo.",
    ),
    "full": (
        "Too many phones are paired. On the laptop open {desk} and take one off.",
        "Hay demasiados teléfonos vinculados. En la computadora abra {desk} y quite uno.",
    ),
    "desk": ("Phones", "Teléfonos"),
    "desk-scan": (
        "Scan this with the phone's camera, or type {welcome} into its browser.",
        "Apunte con la cámara del teléfono, o escriba {welcome} en su navegador.",
    ),
    "desk-alone": (
        "This laptop is in no network now. Join the phone's hotspot or a Wi-Fi, then load this page again.",
        "Esta computadora no está en ninguna red. Únase al punto de acceso del teléfono o a una "
        "Wi-Fi y cargue "
        "esta página otra vez.",
    ),
    "desk-code": ("Code for the next phone", "Código para el próximo teléfono"),
    "desk-code-how": (
        "Good for one phone, for ten minutes from when it was asked for.",
        "Sirve para un teléfono, durante diez minutos desde que se pidió.",
    ),
    "desk-none": (
        "No code stands: no phone can be paired.",
        "No hay código: no se puede vincular ningún teléfono.",
    ),
    "desk-new": ("New code", "Código nuevo"),
    "desk-close": ("No more phones", "No más teléfonos"),
    "desk-digits": ("Digits of the certificate", "Dígitos del certificado"),
    "desk-ends": (
        "Phones trust it until {day}; “{anchor}” is what it is called there.",
        "Los teléfonos confían en él hasta {day}; allí se llama «{anchor}».",
    ),
    "desk-devices": ("Paired phones", "Teléfonos vinculados"),
    "desk-no-devices": ("None yet.", "Ninguno todavía."),
    "desk-device": ("paired {paired}, here last {seen}", "vinculado {paired}, última vez {seen}"),
    "desk-off": ("Take off", "Quitar"),
    "desk-off-how": (
        "A phone taken off gets nothing from here any more. What it holds stays on it.",
        "Un teléfono quitado ya no recibe nada de aquí. Lo que tiene guardado sigue en él.",
    ),
    "desk-unseen": (
        "One that was not here for {days} days is asked for a code again, and loses nothing by it.",
        "Al que no viene en {days} días se le pide otra vez un código, y no pierde nada por ello.",
    ),
    "desk-stopped": (
        "Not here for more than {days} days: it may not come in until it is paired again, with a new code.",
        "Más de {days} días sin venir: no puede entrar hasta que se vincule otra vez, con un código nuevo.",
    ),
    "nothing": ("There is nothing at this address", "No hay nada en esta dirección"),
    "nothing-said": ("Asked for:", "Se pidió:"),
    "nothing-key": ("How a phone gets in", "Cómo entra un teléfono"),
    "home": ("Jobs", "Trabajos"),
}
