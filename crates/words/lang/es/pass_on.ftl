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
