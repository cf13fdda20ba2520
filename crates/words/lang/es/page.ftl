# What the page says.

start-title = Planear una hilera en cordón plano
start-lead = Traer una hilera como está, probar en ella la formación, y ver enseguida dónde su cordón está desnudo, apretado o traslapado. Todo queda en este aparato; nada se envía a ninguna parte.
page-loads = Cordonry se está cargando …
way-file = Abrir un archivo
way-file-help = Un plan o un archivo de varias hileras guardado desde aquí (.json), o una hilera medida como tabla (.csv), un renglón por brote. También se puede soltar un archivo en la página.
file-choose = Elegir un archivo …
way-paste = Pegar una tabla
way-paste-help = Copiar de una hoja de cálculo los renglones de una hilera medida, con el renglón de nombres de columna.
way-paste-sample =
    árbol;lugar;tipo;largo;grosor
    1;0 m;tallo;2,0 m;24 mm
way-paste-do = Leer la tabla
pasted-name = Hilera pegada
way-example = Empezar con un ejemplo
way-example-help = Todos son inventados.
example-third-leaf = Una hilera de tercera hoja, con labores en la temporada que viene
example-short-stock = Planta rebajada y corta que deja huecos
example-two-cordons = Árboles con dos cordones
example-missed-buds = Desyeme olvidado en la primera hoja
example-overdue-renewal = Renovación muy atrasada
example-uneven-uprights = Verticales desparejos
example-opposed-leans = Pies inclinados en sentido contrario
example-lost-tree = Un árbol perdido
example-clean = Una hilera de tercera hoja en buen orden
example-measured = La tabla medida de 40 árboles, con descuidos
way-lesson = Lecciones
way-lesson-help = Dos esquemas de una hilera inventada que difieren en una cosa. La nota de cada una pregunta, responde y dice qué tan seguro es.
lesson-buds-removed-or-missed = Desyeme hecho, u olvidado y corregido
lesson-buds-set-right-or-never = Desyeme olvidado y corregido, o nunca
lesson-structure-or-crop-first = Primero estructura o primero producción, en una hilera sin desyemar
lesson-unheaded-or-headed = Planta entera, o rebajada al plantar
lesson-headed-laid-at-once-or-later = Planta rebajada tumbada enseguida, o una hoja después
lesson-rising-or-flat = Tumbada con poca subida, o totalmente a nivel
lesson-one-way-or-opposed = Todas las guías hacia un lado, o alternadas
lesson-tipped-until-height-or-always = Despuntar hasta que el muro tiene su altura, o cada invierno
lesson-renewal-a-fifth-or-never = Renovar un quinto cada invierno, o nada
lesson-renewal-a-fifth-or-an-eighth = Renovar un quinto, o un octavo
lesson-renewal-a-fifth-or-a-quarter = Renovar un quinto, o un cuarto
lesson-renewal-early-or-late = Empezar a renovar antes de la hoja 3, o de la hoja 5
kept-title = Hileras en este aparato
kept-forget-short = Quitar
kept-forget-which = Quitar de este aparato: { $row }
kept-alike = { $row } ({ $number })
kept-trees = { $count ->
    [one] { $count } árbol
   *[other] { $count } árboles
}
kept-leaf = hoja { $leaf }
kept-size = { $size } kB
kept-rename = Cambiar el nombre
kept-rename-which = Cambiar el nombre: { $row }
kept-name-keep = Poner este nombre
kept-name-leave = Dejarlo como estaba
kept-copy-do = Copiar
kept-copy-which = Copiar: { $row }
kept-copy = { $row } (copia)
kept-gone = «{ $row }» se quitó de este aparato.
kept-gone-back = Ponerla de vuelta
kept-busy = Esta hilera está abierta en otra pestaña, que la guarda. Primero hay que cerrarla ahí.
kept-not-done = No se pudo hacer: el aparato no lo permitió, o la hilera cambió mientras tanto. No se cambió nada.
kept-denied = Este navegador no guarda nada para esta página, como en una ventana privada. Guardar cada hilera como archivo antes de dejarla.
kept-aside = Esta hilera no se pudo abrir: { $why }. Se guarda como está, y ya no se abre por sí sola.
kept-aside-save = Guardar como archivo lo que hay de ella
kept-aside-save-which = Guardar como archivo lo que hay de ella: { $row }
kept-aside-again = Probar otra vez
kept-aside-again-which = Probar otra vez: { $row }
kept-stopped = el programa se detuvo en ella
kept-unreadable = lo que el aparato guarda de ella no se puede leer
kept-set-aside = La última hilera abierta detuvo la página dos veces al abrirse. Queda apartada: está entre las hileras en este aparato, donde se puede guardar como archivo.
kept-all-save = Guardar todas las hileras en un archivo
kept-all-open = Abrir todas las hileras de un archivo …
kept-all-name = hileras
kept-all-saved = { $count ->
    [one] { $count } hilera está
   *[other] { $count } hileras están
} en el archivo, cada una como está; lo que se podía deshacer no va en él.
kept-all-saved-but = { $count ->
    [one] { $count } hilera está
   *[other] { $count } hileras están
} en el archivo. { $left ->
    [one] { $left } hilera no se pudo leer y no está
   *[other] { $left } hileras no se pudieron leer y no están
} en él: guardarla por separado.
kept-lasting = El navegador guarda estas hileras hasta que se quiten.
kept-passing = El navegador puede borrar estas hileras cuando falte lugar en el aparato. Guardarlas también como archivo.
kept-lasting-ask = Pedir al navegador que las guarde
kept-lasting-not = El navegador todavía no promete nada. Guardar las hileras también como archivo.
rows-at = Hilera { $number } de { $count } …
rows-came = { $count ->
    [0] Ninguna hilera de { $file } entró.
    [one] Entró { $count } hilera de { $file }; está entre las hileras en este aparato.
   *[other] Entraron { $count } hileras de { $file }; están entre las hileras en este aparato.
}
left-out-title = { $count ->
    [one] { $count } hilera no se pudo tomar
   *[other] { $count } hileras no se pudieron tomar
}
left-out-help = Las otras entraron. Lo que no se pudo tomar se puede guardar como archivo, tal como está.
left-out-row = Hilera { $place }, «{ $row }»: { $why }
left-out-full = no se pudo guardar en este aparato, que puede estar lleno
left-out-save = Guardar lo que no se pudo tomar
left-out-name = hileras-fuera
left-out-close = Cerrar
unnamed = Hilera sin nombre
card-close = Cerrar la ficha
chosen-title = Lo elegido
chosen-closed = Sigue elegido: { $part }. Intro abre su ficha, Escape lo suelta.
chosen-none = Pulsar un brote en el muro, o elegirlo con ← y →: aquí se ve qué es y qué se puede hacer con él.

doings = Lo que se puede hacer con el plan
undo = Deshacer
redo = Rehacer
undo-step = Deshacer: { $step }
redo-step = Rehacer: { $step }
files = Archivos
save-plan = Guardar el plan como archivo
pass-on = Pasar el plan: enlace, código
save-table = Guardar la hilera como se encontró, en tabla
save-table-shown = Guardar la hilera como se muestra, en tabla
table-shown-name = hoja-{ $leaf }-{ $work ->
    [before] antes
   *[after] después
}-de-las-labores
table-shown-saved = Guardada: la hilera en la hoja { $leaf } como se muestra, { $work ->
    [before] antes de las
   *[after] después de las
} labores de esta época.
table-found-name = como-se-encontró
table-found-saved = Guardada: la hilera como se encontró antes de la hoja { $leaf }. Las labores planeadas no van en una tabla; las lleva el archivo del plan.
save-drawing = Guardar el dibujo (SVG)
other-row = Otra hilera …
print = Imprimir
pdf = PDF
pdf-making = Se está haciendo el PDF …
pdf-missing = Lo que hace los PDF no llegó. Se carga la primera vez que se pide, y para eso hace falta conexión.
pdf-failed = No se pudo hacer el PDF. Imprimir en su lugar.
print-early = Las hojas todavía no estaban cargadas, y se imprimió solo lo que se ve. Imprimir otra vez.
paper-choice = Imprimir en
paper = { $size ->
    [letter] Carta
   *[other] A4
}
language-choice = Lengua
lengths-metres = en metros
lengths-feet = en pies
lengths-to-feet = en metros; mostrar pies y pulgadas
lengths-to-metres = en pies; mostrar metros
kept-saved = Guardado aquí
kept-waiting = Guardando …
kept-elsewhere = Sin guardar: abierto en otra pestaña
kept-failing = Sin guardar
row-name = Nombre de la hilera

schemes-title = Esquema
schemes-menu = Esquemas
scheme-add = Esquema nuevo
scheme-copy = Copiar esquema
scheme-rename = Renombrar esquema
scheme-remove = Quitar esquema
scheme-name = Nombre del esquema
scheme-next = Ver el esquema siguiente
scheme-beside = Otro esquema al lado, o ninguno
step-scheme-add = agregar un esquema
step-scheme-copy = copiar un esquema
step-scheme-name = nombrar un esquema
step-scheme-remove = quitar un esquema
two-choice = Al lado
two-none = ninguno
two-wall = La hilera con { $scheme }, en la misma época
two-here = aquí se trabaja
two-swap = Trabajar en este
two-close = Quitarlo de la vista
two-figure = Cifra
two-crop-by = Producción total hasta la hoja { $leaf }, t/ha
two-hours = Horas hasta hoja { $leaf }, de memoria
two-cuts = Cortes hasta la hoja { $leaf }
two-trees = Árboles hasta la hoja { $leaf }
two-wires = Alambres hasta la hoja { $leaf }
two-ties = Amarras hasta la hoja { $leaf }
two-sleeves = Fundas hasta la hoja { $leaf }
two-waits = …
two-told = { $figure }: { $one } { $own }, { $other } { $its }
two-work = Labores de esta época solo con { $scheme }
two-more = y { $count } más
two-same = Las mismas labores en esta época con los dos.
two-apart = La primera diferencia: hoja { $leaf }, { $window }.
present = Presentar
present-phase = Antes / después
present-ask = ¿Cuáles?
present-tell = Respuesta
present-matter = Qué hacer
present-leaf-previous = ◀ Hoja
present-leaf-next = Hoja ▶
present-scheme = Esquema ▶
present-leave = Salir
present-asks = { $count ->
    [0] ¿Cuáles? Pulsar los brotes que nombra la clase, o ir a ellos con las flechas y pulsar Intro.
    [one] ¿Cuáles? Hay uno nombrado.
   *[other] ¿Cuáles? Hay { $count } nombrados.
}
present-right = { $right } de { $named } nombrados son correctos. Se buscaba: { $work }.
lesson-answer = Respuesta:
leaf-next = Ver la hoja siguiente
leaf-previous = Ver la hoja anterior
window-next = Ver la época siguiente del año
window-previous = Ver la época anterior del año
leaf-copy-on = Copiar las labores a la hoja siguiente
step-copy-leaf = copiar las labores de una hoja
leaf-copied = { $count ->
    [0] No se copia ninguna labor a la hoja { $leaf }.
    [one] Se copia { $count } labor a la hoja { $leaf }.
   *[other] Se copian { $count } labores a la hoja { $leaf }.
}
leaf-left = { $count ->
    [one] { $count } no puede seguir
   *[other] { $count } no pueden seguir
}: { $why }
season-leaf = Hoja { $leaf }
years-title = Hoja por hoja
year-crop = { $crop } t/ha
year-crop-about = ≈ { $crop } t/ha
year-no-crop = sin producción
charts-open = Gráficas …
charts-title = Hoja por hoja, por un modelo calibrado
charts-what = El modelo no conoce heladas, enfermedades ni clima, y da por buena la polinización. Pocos de sus valores están medidos. Por eso cada producción tiene un rango: en ocho de diez intentos con otros valores, y con los usuales, cae dentro de él. La raya del dibujo lo muestra, «desde» y «hasta» en la tabla lo dicen.
charts-when = Producción y fruta se dicen para la cosecha, cordón y verticales como están en la cosecha, edades antes de las labores de invierno.
charts-light-waits = Se calcula la luz de cada hoja …
charts-close = Cerrar
year-range = { $low } a { $high } t/ha
year-fill = lleno al { $share }
year-oldest = { $age ->
    [0] sin madera vieja
    [one] hasta { $age } año
   *[other] hasta { $age } años
}
year-no-work = sin labores
year-untrained = nadie la forma: su producción sale demasiado alta
# What stands at the head of the strip's lines, and whole where the pointer rests.
year-head-crop = producción
year-head-range = queda entre
year-head-fill = cordón en cosecha
year-head-oldest = madera en invierno
year-head-work = labores de la hoja
year-when-crop = { $told } en la cosecha, en el suelo de toda la hilera; las labores de inicio de verano están hechas
year-when-range = En ocho de diez intentos con otros valores del modelo, y con los usuales, la producción cae aquí
year-when-fill = Cuánto del cordón está lleno en la cosecha, antes de las labores de poscosecha
year-when-oldest = { $told }: el vertical más viejo en invierno, antes de las labores de reposo
year-old-until = { $told }, más que los { $limit } del límite; formada así, la madera lo cumple desde la hoja { $from }
year-old = { $told }, más que los { $limit } del límite; formada así, la madera no lo cumple hasta la hoja { $last }
year-doubt = { $told }. { $why }
doubt-untrained = Nadie forma la hilera en esta hoja. En el modelo la sombra no daña la fruta, así que una hilera abandonada da en él más que en el campo: no guiarse por esta producción.
doubt-unfilled = El cordón no está lleno. Lo que está o cuelga en otra parte da en el modelo como si estuviera en el muro: la producción sale demasiado alta.
year-work = { $planned ->
    [planned] planeado
    [part] en parte planeado
   *[usual] usual
}: { $work }
year-piece = { $kind ->
    [plant] { $count ->
        [one] { $count } plantado
       *[other] { $count } plantados
    }
    [remove_tree] { $count ->
        [one] { $count } arrancado
       *[other] { $count } arrancados
    }
    [replace_tree] { $count ->
        [one] { $count } repuesto
       *[other] { $count } repuestos
    }
    [lay] { $count ->
        [one] { $count } tumbado
       *[other] { $count } tumbados
    }
    [stand] { $count ->
        [one] { $count } parado
       *[other] { $count } parados
    }
    [cut_back] { $count ->
        [one] { $count } rebajado
       *[other] { $count } rebajados
    }
    [cut_to_buds] { $count } a yemas
    [stub] { $count } a tocón
    [remove] { $count ->
        [one] { $count } quitado
       *[other] { $count } quitados
    }
    [thin] { $count ->
        [one] { $count } raleado
       *[other] { $count } raleados
    }
    [rub_out] { $count ->
        [one] { $count } desyeme
       *[other] { $count } desyemes
    }
    [keep_bud] { $count ->
        [one] { $count } yema
       *[other] { $count } yemas
    }
    [notch] { $count ->
        [one] { $count } entalladura
       *[other] { $count } entalladuras
    }
    [move_bud] { $count ->
        [one] { $count } yema movida
       *[other] { $count } yemas movidas
    }
    [take_laterals] laterales de { $count }
    [tip] { $count ->
        [one] { $count } despunte
       *[other] { $count } despuntes
    }
    [hold_height] { $count } a su altura
   *[wire] { $count } en alambres
}
# In the card, where all of it has no room.
year-short = { $work }{ $more ->
    [0] {""}
   *[other] {" "}+{ $more }
}
tip-slide = Largo que se corta
tip-acts = Actúa en la cosecha de la hoja { $leaf }, no en la próxima: { $length } de largo, { $sites } de los puntos de fruta de este crecimiento.
tip-acts-crop = Actúa en la cosecha de la hoja { $leaf }, no en la próxima: { $length } de largo, { $sites } de los puntos de fruta de este crecimiento, cerca de { $crop } de lo que este brote da entonces.
year-stands = ○ labores usuales
step-stand-again = dejar que rijan otra vez las labores usuales
step-usual-work = dejar que rijan las labores usuales
stand-again = Devolver esta época a las reglas
usual-work = Que las reglas hagan las labores donde no hay ninguna planeada
window-dormant = Reposo
window-bud-swell = Yema hinchada
window-early-summer = Inicio verano
window-after-harvest = Poscosecha
now-count = { $count ->
    [one] { $count } hallazgo para corregir ya
   *[other] { $count } hallazgos para corregir ya
}

wall-label = La hilera como muro
keys-title = Teclas
keys-presenting = Al presentar: { $does }
keys-pointer = Mayús con las teclas que mueven o doblan avanza en pasos chicos. Ctrl y la rueda, o dos dedos, cambian el tamaño en el puntero; Mayús y la rueda recorren la hilera.
key-ctrl = Ctrl
key-shift = Mayús
key-alt = Alt
key-left = Izquierda
key-right = Derecha
key-up = Arriba
key-down = Abajo
key-delete = Supr
key-backspace = Retroceso
key-enter = Intro
key-home = Inicio
key-end = Fin
key-page-up = Re Pág
key-page-down = Av Pág
key-escape = Escape
action-save = Guardar el plan: en su archivo si lo tiene, si no como descarga
action-next = Elegir el brote siguiente
action-previous = Elegir el brote anterior
action-to-card = Ir a las acciones de lo elegido
action-let-go = Cerrar la ficha; otra vez, soltar lo elegido
action-raise = Subir la punta del brote elegido
action-lower = Bajar la punta del brote elegido
action-forward = Mover adelante por su madera la yema elegida
action-back = Mover atrás por su madera la yema elegida
action-bud = Dejar una yema en el cordón elegido; en madera más vieja, entallar para ella
action-upright = Registrar un vertical en el cordón elegido
band-label = El alambre del cordón: lleno, desnudo y traslapado
band-name = Cordón
band-filled = lleno
band-bare = desnudo
band-twice = traslape
view-on = Adelante por la hilera
view-back = Atrás por la hilera
row-start = Al comienzo de la hilera
row-end = Al fin de la hilera
strip-label = La hilera entera; lo que se ve va en el marco
strip-how = Pulsar o arrastrar para ir ahí; ▲ corregir ya, ◆ corregir pronto
strip-seen = A la vista: { $from } a { $to }
to-number = Ir al árbol de un número
to-number-none = No hay árbol { $tree } en esta hilera.
fit-row = Hilera entera
fit-height = Toda la altura
zoom-in = Acercar
zoom-out = Alejar
zoom-how = También Ctrl con la rueda, o dos dedos
stretch-bare = { $length } desnudos
stretch-twice = { $length } de traslape
ghost-bud = dejar una yema en { $place }
ghost-notch = entallar sobre una yema en { $place }

findings-title = { $count ->
    [0] Nada que hacer ahora
    [one] Qué hacer ahora: { $count } asunto
   *[other] Qué hacer ahora: { $count } asuntos
}
left-title = { $count ->
    [one] Dejado por este año: { $count } asunto
   *[other] Dejados por este año: { $count } asuntos
}
matter-each = { $count ->
    [one] Un hallazgo
   *[other] { $count } hallazgos
}
matter-more = { $count ->
    [one] Uno más
   *[other] { $count } más
}
# Which of its findings is shown on the wall.
matter-at = { $at } de { $count }
matter-fewer = Ocultar sus hallazgos
leave = Dejarlo…
leave-why = Por qué se deja este año
leave-do = Dejarlo este año
leave-not = No dejarlo
take-up = Retomarlo
step-leave = dejar un asunto por este año
step-take-up = retomar lo dejado
said-left = Dejado por este año; vuelve en la hoja siguiente, y antes si cambia
findings-no-light = Luz sin juzgar.
findings-judge-light = Juzgarla también
findings-hidden = { $count ->
    [one] Uno más no está en la lista
   *[other] { $count } más no están en la lista
}
remedies-other = { $count ->
    [one] otra manera
   *[other] otras { $count } maneras
}
tried-crop = Producción hasta la hoja { $leaf }: { $now } → { $then } t/ha
mend-all = Aplicar los { $count } remedios
mend-some = { $remedies ->
    [one] Aplicar un remedio
   *[other] Aplicar { $remedies } remedios
}: para { $count } de { $of } hallazgos
remedy-of-some = Para { $count } de { $of }: { $remedy }
stuck-graver = Todo lo que se probó empeora algo, o no mejora nada
stuck-graver-by = Todo lo que se probó empeora algo, o no mejora nada; lo primero traería: { $finding }
stuck-waits = Se ofrece una vez hecho lo que se ofrece en otra parte
stuck-planned = Lo corrigen las labores planeadas en esta época
stuck-none = No se conoce ninguna labor sola que lo corrija como está la hilera
stuck-other-time = Lo que lo corregiría es de otra época del año
stuck-held = Lo que lo corregiría quita labores que ya están planeadas ahí
stuck-weighed = Se puede corregir, con un remedio que está junto a ello; visto a lo largo de la hilera cuesta más de lo que da
stuck-untaken = Lo corrige una parte del borrador que no se toma
stuck-note = No pide ninguna labor
said-mended = { $count ->
    [one] Hecho en un lugar
   *[other] Hecho en { $count } lugares
}
said-remedy-waits = Primero se prueba; se hace si no daña
said-remedy-withdrawn = No se hizo: probado en la hilera como está ahora, daña algo, o más de lo dicho
step-remedies = corregir hallazgos
step-draft = el borrador
severity-now = Corregir ya
severity-soon = Corregir pronto
severity-note = Para saber
status-published = Publicado
status-derived = Derivado
status-practice = Práctica común, sin fuente
status-memory = De memoria
status-assumed = Supuesto nuestro

figures-title = Hilera en la hoja { $leaf }
# The strip tells of the harvest: this says that it is another time.
figures-when = { $window }, { $view ->
    [before] antes de sus labores
   *[after] después de sus labores
}
figure-fill = Cordón lleno
figure-bare = Alambre desnudo
figure-twice = Traslape
figure-uprights = Verticales en esta época
figure-apart = Espacio medio
figure-uneven = El espacio varía
asked-fill = todo al terminar la hoja { $leaf }
asked-trees = { $trees ->
    [one] en un árbol
   *[other] en { $trees } árboles
}
asked-apart = se busca { $target }
asked-uneven = 0 % es parejo
value = { $value }

parts-title = Árboles y brotes en lista
parts-tree = Árbol

tree-lost = Muerto o faltante
tree-facts = Pie en { $place }, plantado a { $angle }, { $uprights ->
    [one] un vertical
   *[other] { $uprights } verticales
}
bud-facts = Dejada, todavía sin crecer
notch-facts = Entallada, todavía sin crecer: en madera de dos temporadas crece cerca de la mitad, en la más vieja un cuarto
shoot-facts = { $length } de largo, { $thickness } de grosor, { $age ->
    [0] madera de esta temporada
    [1] madera de un año
   *[other] madera de { $age } años
}
act-stub = A tocón
act-lay-left = Tumbar a la izquierda
act-lay-right = Tumbar a la derecha
act-lower = Bajar al alambre
act-stand = Parar
act-remove = Quitar
act-take-back = Retirar
caution-bend = Las horquetas se rajan primero: doblar despacio. El alambre tenso puede dar un latigazo: lentes, guantes, fuera de su línea.
caution-notch = Hoja filosa: cortar hacia afuera, y limpiarla entre árboles.
caution-cut = Podar con tiempo seco y limpiar el serrucho entre árboles; cerca del tronco dejar tocón, no cortar al ras. Serruchos y escaleras: tres puntos de apoyo, nadie debajo.

step-bend = doblar
step-lay = tumbar
step-stand = parar
step-stub = rebajar a tocón
step-cut = rebajar
step-remove = quitar
step-keep-bud = dejar una yema
step-notch = entallar sobre una yema
step-take-back = retirar una labor
step-remedy = corregir un hallazgo
step-count = contar yemas en los dardos
step-crew = poner los tiempos o personas de la cuadrilla
step-told = anotar lo hecho en la hilera
step-taken = tomar marcas de un archivo
step-name = nombrar la hilera
said-undone = Deshecho: { $step }
said-redone = Hecho otra vez: { $step }
said-nothing-to-undo = Nada que deshacer
said-nothing-to-redo = Nada que rehacer
notice-close = Cerrar este aviso
trapped-title = El programa se detuvo por una falla propia
trapped-what = Desde aquí no se guarda nada más, para que nada se dañe. La hilera como se guardó la última vez, medio segundo antes a lo sumo, está en este aparato; una hilera que no se pudo guardar está en el archivo.
trapped-open = Abrir la hilera otra vez
trapped-save = Guardar el plan como archivo
trapped-start = Empezar en la página de inicio
newer-build = Hay una versión más nueva del programa.
newer-build-load = Cargarla
newer-build-later = Después

import-title = Hilera medida «{ $row }»
import-taken = { $lines ->
    [one] Un renglón entendido
   *[other] { $lines } renglones entendidos
}, { $trees ->
    [one] un árbol
   *[other] { $trees } árboles
}{ $left ->
    [0] {""}
    [one] , un renglón fuera
   *[other] , { $left } renglones fuera
}.
import-note = { $trees ->
    [one] Una hilera medida de un árbol.
   *[other] Una hilera medida de { $trees } árboles.
}
import-slips = Mirar estos otra vez
import-take = Tomar { $value }
import-take-back = Como está ahí
import-take-all = Tomar los { $count } como se quiso decir
import-cut-off = ↑ hasta { $height }
import-leaf-follows = Madera más vieja: { $age ->
    [one] una temporada
   *[other] { $age } temporadas
}; en la hoja { $last } { $grew ->
    [0] no creció nada
    [one] creció un brote
   *[other] crecieron { $grew } brotes
}{ $taken ->
    [0] {""}
    [one] {" "}(uno de ellos por falta de temporada)
   *[other] {" "}({ $taken } de ellos por falta de temporada)
}
import-word = «{ $word }» en { $column }, en { $count ->
    [one] un renglón
   *[other] { $count } renglones
}, es
import-word-open = no dicho: se deja fuera
import-word-left = izquierda, hacia el comienzo de la hilera
import-word-right = derecha, hacia su fin
import-word-side = del costado, hacia una calle
import-word-under = de abajo
import-word-top = de arriba
import-word-stem = un tallo
import-word-leader = una guía
import-word-upright = un vertical
import-word-shoot = un brote
import-word-bud = una yema
import-word-stub = un tocón
import-word-lost = un árbol perdido
import-bad = { $count ->
    [one] Un renglón queda fuera:
   *[other] { $count } renglones quedan fuera:
}
import-reading = { $lines ->
    [0] Leyendo …
   *[other] { $share } de { $lines } renglones leídos
}
import-lost = { $file } no se pudo leer hasta el final. No se cambió nada.
import-drawing = La hilera como viene
import-asks = Lo que la tabla no dice
import-range = { $low } a { $high }
import-leaf = Hoja que viene
import-wires = Alambres, del más bajo hacia arriba
import-covering = Los alambres llevan
import-covering-bare = nada: acero desnudo
import-covering-plastic = plástico
import-wall-height = Altura del muro
import-lengths = Un solo largo de madera más vieja es
import-by-season = el de una temporada
import-in-all = el de todas sus temporadas: se reparte como crecen los brotes por lo común (supuesto)
import-tipped = ¿Se había despuntado el crecimiento del año pasado? Nada en lo medido lo dice.
import-tipped-unknown = no se sabe
import-tipped-yes = sí
import-tipped-no = no
import-use = Usar esta hilera
import-leave = Cancelar
refusal-table-plan = Su plan puede tener { $high } MB como máximo; tendría { $value }

file-too-large = { $file } es demasiado grande; puede tener 32 MB como máximo. No se cambió nada.
files-first = Se abrió { $file }: una hilera a la vez. { $others ->
    [one] El otro archivo no se miró
   *[other] Los otros { $others } archivos no se miraron
}.
file-unreadable = { $file } no se pudo leer. No se cambió nada.
file-refused = { $file } no se abrió: { $why }. No se cambió nada.
download-refused = El navegador no tomó el archivo.
part-missing = Esta parte de la página no llegó. ¿Hay conexión?
part-again = Pedirla otra vez
in-place-refused = El archivo no se pudo escribir, y tiene lo que tenía antes. Guardar el plan otra vez, en otro archivo.
save-failing = Los últimos cambios no se pudieron guardar en este aparato; puede estar lleno, ocupado por otra pestaña o sin permiso de guardar. Se intenta una y otra vez; mientras tanto, guardar el plan como archivo.
save-again = Guardado otra vez en este aparato. Si estaba lleno, guardar el plan también como archivo: un navegador puede perder todo lo que guarda ahí.
save-lost = Los últimos cambios de la hilera abierta antes no se pudieron guardar en este aparato.
save-elsewhere = Esta hilera está abierta en otra pestaña, que la guarda. Lo que se cambie aquí no se guarda mientras siga abierta ahí.
save-taken-over = Lo que tenía abierta esta hilera la soltó: desde ahora se guarda aquí.
save-apart = La otra pestaña también cambió esta hilera. Lo de aquí se guarda como hilera propia, junto a aquella.
save-leave-sure = Los últimos cambios no están guardados en este aparato. ¿Dejarlos?
row-copy = { $name } (de otra pestaña)

refusal-bud-pressed = No se deja una yema en { $value }: el vertical, yema o tocón en { $near } está a menos de { $low }, la mitad del espacio mínimo
refusal-bud-off-wood = Ahí no hay madera tumbada: una yema se deja en un cordón tumbado.

before-after = Antes o después de las labores de esta época
work-before = antes de las labores
work-after = después
sheet-time = { $window }, hoja { $leaf }: { $view ->
    [before] antes de sus { $count } labores
   *[after] { $count ->
        [0] sin labores planeadas
        [one] después de una labor
       *[other] después de { $count } labores
    }
}.
work-line = { $part }: { $work }
work-at = { $work }, en { $x }
work-line-at = { $part }, en { $x }: { $work }
work-line-there = { $part }: { $work }, en { $x }
work-rest = { $count ->
    [one] Mostrar uno más
   *[other] Mostrar { $count } más
}
card-work = { $count ->
    [one] Una labor aquí
   *[other] { $count } labores aquí
}
card-found = Por hacer aquí
card-more = { $count ->
    [one] y uno más
   *[other] y { $count } más
}
work-signs = Signos
colour-by = Color por
colour-dark = Para verla aquí hay que encender la luz.
work-aside = Las labores quedan a un lado mientras se corrige el registro
colour-light-on = Encenderla
work-title = { $count ->
    [0] Sin labores en esta época todavía
    [one] Una labor en esta época
   *[other] { $count } labores en esta época
}
# Of the work of a window that nobody planned.
work-told-done = ✓ { $work } – hecho en la hilera
work-told-skipped = – { $work } – saltado en la hilera
work-stands = Rige por regla, no planeado.
save-picture = Guardar el dibujo como imagen (PNG)

# Ways to a row that begin with nothing.

way-walk = Recorrer la hilera con cinta
way-walk-help = Una pregunta a la vez, hecha para un teléfono en una mano fría. Tender una cinta por toda la hilera, desde el primer árbol; cada lugar se lee en ella. No se pierde nada si la página se cierra a medio camino.
way-walk-do = Recorrer una hilera …
way-walk-go = Empezar en el árbol 1
way-walk-on = Seguir en el árbol { $tree }
way-walk-open = Seguir: la hilera está completa
way-walk-drop = Abandonar el recorrido
way-walk-drop-sure = ¿Abandonar el recorrido a medias? Se pierde lo medido.
way-make = Hacer una hilera con unos pocos datos
way-make-help = Una hilera creíble, para una clase o un primer vistazo: nada en ella está medido. Los mismos datos hacen otra vez la misma hilera; si el azar empieza en otro número sale otra.
way-make-do = Hacer una hilera …
way-make-go = Hacer la hilera
way-empty = Empezar con una hilera vacía
way-empty-help = Alambres y un largo, y todavía sin árboles. Los árboles se ponen en el muro.
way-empty-do = Una hilera vacía …
way-empty-go = Abrir la hilera vacía
entry-leave = Cancelar

made-lengths = Largos en
made-lengths-metres = metros
made-lengths-feet = pies y pulgadas
made-leaders = Cada árbol tiene
made-leaders-one = una guía
made-leaders-two = dos guías, una a cada lado
made-toward = Los árboles se inclinan, y una guía sola va
made-toward-left = a la izquierda
made-toward-right = a la derecha

no-trees = Todavía sin árboles
no-trees-help = Pulsar el muro donde está el primer árbol, o escribir su lugar en la hilera.
no-trees-place = Lugar
no-trees-do = Poner ahí un árbol
step-found-tree = poner un árbol

walk-which = Ir a
walk-every = cada árbol
walk-sample = diez árboles, como muestra
walk-heights = Preguntar a qué altura llega cada vertical
walk-laterals = Preguntar cuántas ramas laterales tiene cada vertical
walk-asked-no = no
walk-asked-yes = sí
walk-tape = La cinta se lee en
walk-progress = { $done ->
    [0] Ningún árbol hecho todavía
    [one] Un árbol hecho
   *[other] { $done } árboles hechos
}
walk-progress-sample = { $done } de { $of } árboles de la muestra hechos. Ir a los árboles { $trees }
walk-leave = Parar por ahora
walk-ask-foot = ¿Dónde está el árbol { $tree }?
walk-ask-way = Árbol { $tree }: ¿hacia dónde va su guía?
walk-ask-end = Árbol { $tree }: ¿dónde termina la guía de la { $toward ->
    [left] izquierda
   *[right] derecha
}?
walk-ask-leader = Árbol { $tree }: ¿qué grosor tiene en su base la guía de la { $toward ->
    [left] izquierda
   *[right] derecha
}?
walk-ask-upright = Árbol { $tree }: ¿dónde está el vertical { $number }?
walk-ask-thickness = Árbol { $tree }: ¿qué grosor tiene el vertical { $number } en su base?
walk-ask-height = Árbol { $tree }: ¿a qué altura del suelo está la punta del vertical { $number }?
walk-ask-laterals = Árbol { $tree }: ¿cuántas ramas laterales tiene el vertical { $number }?
walk-ask-nothing = La hilera está completa
walk-next = Siguiente
walk-usual = Sí, en { $place }
walk-as-last = Igual que el último: { $value }
walk-next-thickness = Siguiente: su grosor
walk-next-upright = Vertical siguiente
walk-next-tree = No hay más verticales: árbol siguiente
walk-last-tree = Ese era el último árbol
walk-same-as = Igual que el árbol { $tree }
walk-missing = El árbol falta
walk-unmeasured = Sin medir
walk-end = No hay más árboles
walk-left-way = ← A la izquierda: los números bajan
walk-right-way = A la derecha: los números suben →
walk-both-ways = Hacia los dos lados
walk-back = Atrás
walk-left = Todavía hay un número en el campo: tomarlo con «{ $button }», o borrarlo
walk-doubt = { $what ->
    [leader] Una guía de { $value } de grosor es rara; lo usual es { $low } a { $high }
    [thickness] Un vertical de { $value } de grosor en su base es raro; lo usual es { $low } a { $high }
    [height] Un vertical de { $value } de alto es raro; lo usual es { $low } a { $high }
    [laterals] { $value } ramas laterales en un vertical son raras; lo usual es { $low } a { $high }
    [foot] El árbol { $tree } estaría a { $value } del anterior; se espera { $low }
    [end] Una guía que alcanza { $value } es rara; lo usual es { $low } a { $high }
    [length] Un largo de { $value } es raro; lo usual es { $low } a { $high }
   *[back] { $value } va hacia atrás en la cinta: ya hay un vertical en { $low }
}.{ $meant ->
    [none] {""}
   *[other] {" "}¿Era { $meant }?
}
walk-doubt-seasons = { $before } + { $next }
walk-doubt-both = { $value } ({ $centimetres } cm)
walk-doubt-meant = Sí, { $meant }
walk-doubt-stands = { $meant ->
    [none] Tomar { $value } como está
   *[other] No, { $value } como está
}
walk-doubt-mend = Corregirlo
walk-open = Abrir la hilera
# Light

light-label = Qué luz se muestra
light-toggle = Luz
light-toggle-help = Muestra cuánta luz llega a cada parte del muro y qué cae por él
light-when = de
light-season = la temporada de crecimiento
light-day = un día
light-day-of = día
light-date = { $day } de { $month }
light-weather-label = con
light-weather-clear = cielo despejado
light-weather-usual = sus nubes usuales
light-one-hour = una hora
light-hour-label = Hora solar
light-hour = { $time } por el sol
light-all-day = todas las horas
light-sun = Sol a { $height } de alto, { $off } fuera de la línea de la hilera
light-night = El sol está bajo el horizonte
light-leaves-label = hojas
light-leaves = { $share } abiertas
month-1 = enero
month-2 = febrero
month-3 = marzo
month-4 = abril
month-5 = mayo
month-6 = junio
month-7 = julio
month-8 = agosto
month-9 = septiembre
month-10 = octubre
month-11 = noviembre
month-12 = diciembre
legend-label = Colores del mapa, desde nada de luz hasta toda la que hay sobre la hilera
legend-name = Luz en el muro
sky-name = Luz que cae por el muro, parte del cielo abierto
probe-label = Luz en un lugar: las flechas lo mueven
probe-none = Señalar el muro, o moverse aquí con las flechas
probe-both = { $light } de la luz en { $x }, a { $z } de alto; cae { $falls }
probe-falls = cae { $falls } en { $x }
probe-off = No hay luz calculada en { $x }
light-figures-title = Luz
about-value = ≈ { $value }
figure-light-caught = Luz captada
asked-light = { $target } o más es lo usual en muros de manzano adultos
figure-light-filled = junto a este muro lleno como es usual
asked-light-filled = que captaría { $filled }; un muro adulto necesita { $least } o más
figure-light-parts = directa, difusa
light-parts = { $beam }, { $sky }
figure-zone-mean = En la zona de renovación
asked-zone = hasta { $height } sobre el cordón; los tocones necesitan { $least } o más
figure-zone-least = en lo más oscuro
figure-under-30 = Bajo 30 %
figure-under-50 = Bajo 50 %
of-whole-wall = del muro con hojas
of-wall-in-view = del muro con hojas a la vista
figure-leaf-area-index = Índice de área foliar
asked-leaf-area-index = área de hoja entre área de suelo
light-assumed = A { $latitude }° { $side ->
    [south] sur
   *[north] norte
}{ $place ->
    [no] {" "}(supuesto, pues no se dio lugar)
   *[yes] {""}
}, rumbo de la hilera { $bearing }{ $way ->
    [no] {" "}(supuesto)
   *[yes] {""}
}, hileras a { $spacing }{ $rows ->
    [no] {" "}(supuesto)
   *[yes] {""}
}, muro de { $thickness } de grosor. { $weather ->
    [usual] { $sky } de la luz viene del cielo (Page 1961, sol la mitad de las horas)
   *[clear] Cielo despejado
}, hojas negras; área de hoja por el modelo de crecimiento, casi toda supuesta.
anchors-title = Cifras publicadas junto a este modelo
anchor-caught-60 = Captado por un muro plano de cerezo, N–S, comienzos de julio (ponencia ASABE, 2012)
anchor-caught-69 = Captado en otro ensayo (Agronomy 2022, 12:643)
anchor-base-28 = Luz a 0,4 m en un muro que produce (IHC 2022)
anchor-model = { $low } a { $high }
anchor-published = { $published } publicado, { $way ->
    [more] { $off } de la luz más en el modelo
   *[less] { $off } de la luz menos en el modelo
}
anchors-why = Los muros del modelo tienen 3,0 a 3,3 m de alto en hileras a 2,8 m, con un índice de área foliar de 2,0 a 2,5, que es supuesto nuestro: aquí no se conoce el de los ensayos. La madera y la fruta también captan luz, y el modelo las deja fuera; las hojas no son negras, y dejan pasar algo hasta la base.
beside-title = Un muro plano junto a una copa profunda
beside-about = Los verticales de esta hilera, junto a una hilera de arbusto con la misma hoja por área de suelo a cada altura, pero repartida por igual a lo largo de la hilera y en su fondo. Rebajar un vertical a tocón abre su propio lugar hasta el tocón; la misma hoja quitada a un arbusto es una rama entre otras en un metro de hilera, y se abre poco.
beside-depth = Fondo de la copa
beside-waiting = Se calcula …
beside-leafless = No hay hojas que comparar.
beside-flat = Muro plano
beside-deep = Copa profunda
beside-alike = Se mantiene igual
beside-alike-alley = la calle que queda para pasar
beside-alike-rows = la distancia entre hileras
beside-thick = Grosor
beside-rows = Entre hileras
beside-alley = Queda para pasar
beside-plane = Luz en la zona de renovación, al centro
beside-base = en todo el grosor
beside-lead = Luz en la base donde un corte de renovación quitó un vertical, o la misma hoja
beside-caught = Luz captada
beside-says = { $than ->
    [darker] La copa profunda es más oscura en su base: { $deep } de la luz, contra { $flat }.
    [lighter] La copa profunda es más clara en su base: { $deep } de la luz, contra { $flat }.
   *[alike] Sus bases son iguales: { $deep } de la luz, contra { $flat }.
}
beside-why = Con sus hileras tan separadas como las del muro plano se extendió a la calle, que baja a { $alley }, y sus hojas están más ralas.
beside-same = Índice de área foliar { $index } en los dos; se comparan { $length } de la hilera.
save-in-place = Guardar en un archivo, el mismo otra vez con Ctrl S
saved-in-place = Guardado en su archivo
# Fields.

field-no-length = Esto no es un largo: «{ $text }»; escribirlo como 1,20 m, 120 cm o 3 ft 11 in
field-no-thickness = Esto no es un grosor: «{ $text }»; escribirlo como 12 mm o 0,5 in
field-no-count = Esto no es un número entero: «{ $text }»
field-no-number = Esto no es un número: «{ $text }»
field-decimal-mark = Los decimales van detrás de «{ $mark }», no como en «{ $text }»
field-no-list = Escribir los lugares con punto y coma entre ellos: 0 m; 7 m; 14 m
ask-do = Hacerlo

# Works that ask for a number, and work on a whole tree.

act-cut = Rebajar a
act-cut-to-buds = Rebajar a yemas
act-tip = Despuntar
act-hold-height = Mantener a
act-take-laterals = Quitar laterales
act-rub-out = Desyemar costados y abajo
act-thin = Dejar { $part }, quitar los otros
act-move-bud = Mover a
act-remove-tree = Arrancar
act-replace-tree = Reponer con planta
act-plant = Plantar aquí
step-laterals = quitar laterales
step-tip = despuntar
step-height = mantener una altura
step-rub-out = desyemar
step-thin = ralear rebrotes
step-move-bud = mover una yema
step-remove-tree = arrancar un árbol
step-replace-tree = reponer un árbol
step-plant = plantar un árbol

# Correcting the record.

record-switch = Corregir el registro
record-title = Corregir el registro
record-what = Esta es la hilera como se encontró. Lo que se cambia aquí se midió mal: no es labor para la cuadrilla.
record-along = { $at } a lo largo de su madre
record-shared = Repartido entre sus temporadas como antes: { $lengths }. Escrito así, cada uno se toma como está
record-as-found = Como se encontró
record-add-tree-at = Agregar un árbol en
record-done = Terminar de corregir
record-tree-here = Agregar aquí un árbol, en { $place }
record-upright-here = Registrar aquí un vertical, en { $place }
record-drop-shoot = Quitar del registro
record-to-tree = Al árbol { $tree }
record-diseased = Marcar como enfermo: al final
record-sound = Quitar la marca de enfermo
record-drop-tree = Quitar el árbol del registro
record-lost = Marcar como perdido
record-standing = Está en pie
step-correct-leaf = corregir la hoja que viene
step-correct = corregir el registro

# Limits and site.

limits-and-site = Límites y lugar
limits-title = Límites
limits-what = Cada hallazgo nombra el límite por el que se guía. Un límite de práctica común o de memoria es un comienzo: poner el que vale en el propio huerto.
limits-reset-all = Volver todos a su valor inicial
limit-range = { $low } a { $high }
limit-reset-none = Volver a ninguno
limit-reset = Volver a { $value }
limit-source = { $status }: { $source }
site-title = Lugar y estructura
setting-posts = Postes en
setting-posts-every = Postes parejos, cada
step-limit = poner un límite
step-assumed = poner una regla o un supuesto
step-limits-reset = volver los límites a su valor
step-setting = poner el lugar

# Wires.

wires-title = Alambres
wires-work = Los cambios de aquí son labores de la época elegida.
wires-record = Se corrige el registro: los cambios de aquí son de los alambres como se encontraron.
wire-number = Alambre { $number }
wire-add = Tender otro, plastificado, a
wire-is-bare = acero desnudo
wire-is-plastic = plastificado
wire-cover = Forrar de plástico
wire-bare = Dejar desnudo
wire-down = Quitar
step-wires = labor en alambres
caution-wire = El alambre tenso puede dar un latigazo: lentes, guantes, fuera de su línea; soltar la tensión antes de cortarlo o moverlo.
caution-trellis = Aquí no se calculan las cargas en postes y anclas: piden las normas locales y una persona calificada.

# Work on many at once.

many-title = Muchos a la vez
many-whom = En
many-row = toda la hilera
many-numbers = los árboles de un número a otro
many-chosen = el árbol elegido
many-from = del árbol
many-to = al árbol
many-what = hacer
many-count = { $shoots ->
    [0] No hay nada que hacer en ellos
    [one] Un brote en un árbol
   *[other] { $shoots } brotes en { $trees ->
        [one] un árbol
       *[other] { $trees } árboles
    }
}
many-not-now = Se está corrigiendo el registro, y eso no es labor; terminar eso primero.
sweep-lay = tumbar por el alambre los tallos que siguen parados
sweep-laterals = quitar los laterales
sweep-tip = despuntar
sweep-height = mantener a
sweep-rub-out = desyemar costados y abajo
sweep-side-shoots = quitar brotes de costado y de abajo
sweep-straighten = enderezar los verticales inclinados
sweep-largest = rebajar a tocón, en cada árbol, tantos de los verticales más gruesos
step-many = labor en muchos a la vez
said-many = { $shoots ->
    [one] Hecho en un brote; deshacer lo retira
   *[other] Hecho en { $shoots } brotes; deshacer los retira de una vez
}

# A draft of a time's whole work.
hand-out-do = Repartir las labores de la hoja
hand-out-what = Las labores de toda la hoja en pasadas de una sola tarea, con minutos, herramientas y cuidados, y sus hojas para imprimir.
order-do = Pedido y materiales
report-do = Informe para un cliente
report-what = Lo encontrado, lo aconsejado, por qué y cuándo, en papel o como PDF; cada cambio por árbol
order-what-for = Árboles, alambres, postes y amarras del muro terminado, lo que cargan los alambres, los árboles recibidos, la hoja de plantación
step-delivered = Árboles recibidos en el registro
draft-do = Borrador de esta época
draft-what = Propone las labores de esta época en toda la hilera, cada una con su razón. Nada se hace antes de tomarlo.
draft-waits = Recorriendo la hilera …
draft-none = Nada que proponer: lo que hay son las labores de toda una época
draft-title = { $count ->
    [one] Borrador: una labor
   *[other] Borrador: { $count } labores
}
draft-kinds = Lo que se toma
draft-kind-with = { $kind } (con ello { $with })
draft-plant = plantar
draft-other = otras labores
draft-tree = Dónde
draft-trees-all = en todos los árboles
draft-trees-some = en algunos, labor por labor
draft-trees-but = en todos los demás, no en este árbol
draft-take = { $count ->
    [one] Tomar esta labor
   *[other] Tomar { $count } labores
}
draft-left-out = { $count ->
    [one] Una labor queda fuera: lo que corrige solo aparece con lo que no se toma
   *[other] { $count } labores quedan fuera: lo que corrigen solo aparece con lo que no se toma
}
draft-cautions = Precauciones para estas labores
draft-open = Aquí no se corrige: { $count ->
    [one] un asunto
   *[other] { $count } asuntos
}
draft-untipped = { $trees ->
    [one] Un árbol que hay que despuntar ya no lo pide con esto hecho
   *[other] { $trees } árboles que hay que despuntar ya no lo piden con esto hecho
}: el despunte termina con los primeros tocones de un árbol o con la altura de la pared, y lo que sale no se despunta (práctica común, sin fuente)
draft-no-tips = Sin despuntes: la renovación ha empezado, y ambos quitan de un cuarto a la mitad más de la cosecha (por un modelo calibrado)
draft-close = Dejarla de lado
draft-whole = Lo que cuesta y da
draft-of-whole = Lo que da el borrador si se toma entero:
draft-more = Costo y ganancia
draft-cost = Cuesta { $cuts ->
    [0] ningún corte
    [one] un corte
   *[other] { $cuts } cortes
}{ $ties ->
    [0] {""}
    [one] , un brote acostado o amarrado
   *[other] , { $ties } brotes acostados o amarrados
}{ $buds ->
    [0] {""}
    [one] , una yema
   *[other] , { $buds } yemas
}{ $wires ->
    [0] {""}
    [one] , un alambre
   *[other] , { $wires } alambres
}; unos { $minutes } min para una persona (de memoria)
draft-next = Lo siguiente mejor: { $leaves ->
    [yes] dejarlo como está
   *[no] { $said }
}; peor en lo que valen { $wire ->
    [yes] { $worse } de alambre desnudo
   *[no] { $worse } distancias entre verticales desviadas en todo su largo
}
draft-gain-waits = Se calcula lo que da en cinco hojas …
draft-gain-trees = { $count ->
    [one] del árbol { $trees }
   *[other] { $more ->
        [yes] de { $count } árboles ({ $trees } …)
       *[no] de los árboles { $trees }
    }
}
draft-gain-brief = Cinco hojas dan { $after } t/ha ({ $before } sin ello), la próxima cosecha { $then } ({ $else })
draft-gain-crop = { $piece ->
    [yes] Fruta { $trees } en cinco hojas: { $after } kg con ello, { $before } kg sin ello (una diferencia de { $low } a { $high } kg, por un modelo calibrado)
   *[no] Producción de cinco hojas: { $after } t/ha con ello, { $before } t/ha sin ello (una diferencia de { $low } a { $high } t/ha, por un modelo calibrado)
}
draft-gain-coming = { $piece ->
    [yes] De eso, en la próxima cosecha: { $after } kg con ello, { $before } kg sin ello
   *[no] De eso, en la próxima cosecha: { $after } t/ha con ello, { $before } t/ha sin ello
}
draft-gain-fill = Cordón lleno después de ellas: { $same ->
    [yes] { $after }, igual que sin ello
   *[no] { $after }, sin ello { $before }
}
draft-gain-spacing = Las distancias entre verticales varían en { $same ->
    [yes] { $after }, igual que sin ello
   *[no] { $after }, sin ello en { $before }
}
draft-gain-light = De la luz de la temporada el muro capta { $same ->
    [yes] { $after }, igual que sin ello
   *[no] { $after }, sin ello { $before }
}
draft-gain-oldest = Madera más vieja en estos inviernos: { $same ->
    [yes] { $after } temporadas, igual que sin ello
   *[no] { $after } temporadas, sin ello { $before }
}
weights-title = Qué se pesa contra qué
weights-what = Las formas de llenar el alambre se pesan en alambre desnudo; los lugares de las yemas, en distancias desviadas en todo lo que se busca. Con otros valores el borrador se hace de nuevo.
weights-source = a criterio, no medido
weight-overlap-each = Un tramo doble: un corte más
weight-overlap = Un largo de alambre doble
weight-upright = Un vertical que se tumba
weight-wait = Un largo que queda desnudo una temporada más
weight-spacing = Una distancia entre verticales desviada en todo lo que se busca
weight-bud = Una yema que se deja
weight-notch = Una entalladura
weight-long-gap = Una distancia más larga de lo que se deja pasar
weight-long-gap-metre = Un metro de ella más allá
said-drafted = { $count ->
    [one] Una labor del borrador está en el plan. Deshacer la retira.
   *[other] { $count } labores del borrador están en el plan. Deshacer las retira.
}

# Marcas en la pared, como se ponen y se listan.
marks-title = Marcas
marks-how = Notas, flechas, distancias y tramos enmarcados. Van con la madera en que se ponen, hoja tras hoja, y salen en papel con su número.
marks-put = Poner una marca
marks-none = Todavía no hay marcas.
mark-where = Pulsar el lugar en la pared.
mark-from = Pulsar en la pared donde empieza.
mark-to = Pulsar en la pared donde acaba.
mark-at-chosen = En lo elegido
mark-give-up = Dejarlo
mark-says = Qué dice
mark-says-maybe = Qué dice; puede quedar vacío
mark-put = Ponerla ahí
mark-number = Marca { $number }: mostrarla
mark-go = Mostrar dónde está
mark-change = Cambiar lo que dice
mark-remove = Quitar
step-mark = poner una marca
step-mark-text = cambiar lo que dice una marca
step-mark-remove = quitar una marca
