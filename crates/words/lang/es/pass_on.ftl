# Una hilera que se pasa como enlace, y por qué no se puede abrir uno.

refusal-link-none = Esto no es un enlace a una hilera: tras el # debe decir { $accepted } y lo que sigue
refusal-link-form = El enlace es de forma { $value } y pide un programa más nuevo; este lee la forma 1
refusal-link-cut = El enlace llegó cortado: le falta el final. Copiarlo otra vez, entero
refusal-link-damaged = El enlace está dañado: no es como se hizo. Pedir que lo manden otra vez
refusal-link-long = Un enlace debe tener { $high } caracteres como mucho, no { $value }: pasar el plan como archivo
refusal-link-size = Un enlace debe contener { $high } bytes como mucho, no { $value }: pasar el plan como archivo

pass-on-title = Pasar el plan
pass-on-carries = El enlace es el plan mismo: la hilera como se encontró, cada esquema con sus labores, los límites, las marcas y lo que se dejó, se contó y se anotó. Va tras el # de la dirección, así que no se manda a ningún servidor; pero quien tiene el enlace lo tiene todo. Al abrirlo es una hilera aparte y no toca ninguna otra.
pass-on-link = Enlace
pass-on-length = { $count ->
    [one] { $count } carácter
   *[other] { $count } caracteres
}
pass-on-copy = Copiar el enlace
pass-on-copied = Copiado.
pass-on-selected = El enlace está seleccionado: copiarlo con Ctrl C.
pass-on-long = Desde { $high } caracteres algunos programas cortan un enlace en el camino: pasar el plan como archivo.
pass-on-here = Esta página es un archivo de este equipo, y el enlace solo se abre aquí. En otro lugar, pegarlo donde se pega una tabla.
pass-on-code = Código para un teléfono
pass-on-code-how = Apuntar la cámara del teléfono al código y abrir lo que lee. El plan queda también en el teléfono, y cada uno se puede cambiar sin el otro.
pass-on-code-long = El enlace es demasiado largo para un código, que contiene { $most } caracteres.
pass-on-file = Archivo
pass-on-file-how = Un archivo lleva un plan de cualquier largo, y se abre donde se abre la página.
pass-on-refused = El enlace no se abre, y nada cambia. { $why }.

# Una copia que vuelve, y lo que trae de otro modo.
answer-title = Lo que vuelve
answer-how = Una copia cambiada en otra parte se compara con la que se envió y con lo que hay aquí. Nada cambia antes de tomarlo, y un deshacer lo devuelve.
answer-link = Pegar su enlace
answer-file = Elegir su archivo …
answer-count = { $count ->
    [one] Cambiaron una cosa.
   *[other] Cambiaron { $count } cosas.
}
answer-rest = { $count ->
    [one] Queda un cambio.
   *[other] Quedan { $count } cambios.
}
answer-known = Se compara con la copia que se envió desde este aparato.
answer-unknown = La copia enviada no está en este aparato: todo lo que difiere de lo de aquí se cuenta como suyo.
answer-foreign = Parece otra hilera: ni su nombre ni el registro de ningún árbol es lo que hay aquí. No se marca nada.
answer-added = { $work }
answer-dropped = se retira: { $work }
answer-mark-changed = Una marca cambiada, { $mark }; antes: { $was }
answer-same = No trae nada que no esté ya aquí.
answer-take = Tomar lo marcado
answer-leave = Dejarlo todo
answer-taken = { $count ->
    [one] Se tomó un cambio.
   *[other] Se tomaron { $count } cambios.
}
answer-both = Cambiado aquí también: si se toma, vale lo suyo.
answer-here = Aquí: { $work }.
answer-when = hoja { $leaf }, { $window }
answer-no-work = ninguna labor
answer-work = { $when }{ $on ->
    [yes] , árbol { $tree }
   *[no] {", "}alambres
 }: { $work }
answer-name = El nombre de la hilera: { $name }
answer-note = Lo que se dice de la hilera: { $note }
answer-site = Dónde está la hilera
answer-limits = Límites
answer-values = Valores del modelo
answer-crew = Tiempos y personas de la cuadrilla
answer-row = Alambres, postes, extremos u hoja próxima de la hilera medida
answer-tree = El registro del árbol { $tree }
answer-tree-gone = El árbol { $tree } no está en su registro
answer-scheme = Un esquema suyo: { $scheme }
answer-scheme-gone = Quitaron el esquema { $scheme }
answer-rules = Las reglas de { $scheme }
answer-given-back = Vuelven a valer las labores usuales en { $scheme }
answer-told = Marcas de hecho, notas y revisiones de la hilera
answer-mark = Una marca, { $mark }
answer-mark-gone = Una marca quitada, { $mark }
answer-left = Lo que se deja por este año
answer-buds = Yemas contadas en el árbol { $tree }
step-answer = tomar lo que volvió
answer-go = Ir allí
answer-where = Un ◆ sobre la hilera está donde cambiaron algo{ $count ->
    [0] .
    [one] : árbol { $trees }.
   *[other] : árboles { $trees }.
}
