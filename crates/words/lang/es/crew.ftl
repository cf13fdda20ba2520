# What is said where work is handed out. The page's first module holds none of it.

crew-job = { $job ->
    [grub_out] Arrancar árboles
    [plant] Plantar
    [stub] Rebajar a tocón
    [laterals] Quitar laterales
    [tip] Despuntar, mantener la altura
    [cut_back] Rebajar
    [take_off] Quitar brotes
    [wires] Alambres
    [buds] Desyemar, dejar yemas
    [notch] Entallar
   *[tie] Tumbar y amarrar
}
crew-job-diseased = { $job } – árboles enfermos, al final
crew-tool = { $job ->
    [grub_out] serrucho, pala
    [plant] pala, cinta, escuadra de ángulo
    [stub] serrucho de poda, una vara del largo del tocón
    [laterals] tijeras
    [tip] tijeras
    [cut_back] tijeras
    [take_off] serrucho, tijeras
    [wires] tensor, alicate
    [buds] manos
    [notch] cuchillo
   *[tie] amarras, fundas
}

caution-glasses = Usar lentes: al agacharse, la cara da con los tocones.
caution-spray = Entrar solo después del plazo de reingreso de la última aplicación.
caution-dry = Podar con tiempo seco, dos días secos al menos, y desinfectar las herramientas.
caution-canker = Bajo un cáncer bacteriano visible cortar al menos a { $below }; si está más cerca, marcar con cinta, dejarlo, avisar.
caution-trunk = Cerca del tronco dejar tocón, no cortar al ras.
caution-saw = Serrucho: la mano libre y todos los demás fuera de su paso.
caution-shears = Tijeras de motor: guante anticorte en la mano libre, nadie al alcance.
caution-ladder = Escaleras y serruchos de pértiga: tres puntos de apoyo, no pasar del tercer peldaño contado desde arriba, nadie debajo, cuidado con los cables eléctricos.
caution-loosen = Soltar las amarras a fines de verano, antes de que ahorquen.
caution-diseased = Los árboles enfermos van al final. Desinfectar las herramientas después de cada árbol, y llevarse lo cortado.

refusal-rate = { $name } = { $value }: un rendimiento debe estar entre { $low } y { $high } segundos, y ser uno de { $names }

crew-row = Hilera: { $row }
crew-fill-in = Cuartel: ______________   Fecha: ______________   Capataz: ____________________   Cuadrilla: __________________
crew-with = Herramienta: { $tools }. { $people ->
    [one] Una persona
   *[other] { $people } personas
}, unos { $minutes } min cada una{ $ties ->
    [0] .
    [one] ; una amarra, { $sleeves } fundas.
   *[other] ; { $ties } amarras, { $sleeves } fundas.
}
crew-each = En cada una: { $work }
crew-how = Los números se cuentan desde el tronco a lo largo del alambre, verticales y tocones juntos; si la madera va a ambos lados, cada lado aparte. Contar todo el árbol antes del primer corte. Detrás del número están la distancia desde el pie del árbol a lo largo de la hilera y el grosor en la base.
crew-differs = Si la cuenta no coincide, o si hay goma o una rajadura: marcar con cinta, dejarlo, avisar.
crew-not-today = Hoy solo esta labor, y solo lo que tiene casilla: lo demás queda, aunque se vea mal.
crew-stick = cortar una vara de este largo: { $length } (exacto si se imprime al 100 %)
crew-list = { $count ->
    [one] Una labor
   *[other] { $count } labores
} en { $trees ->
    [0] los alambres
    [one] un árbol
   *[other] { $trees } árboles
}: marcar cada una
crew-found = Como se encuentra
crew-right = BIEN
crew-wrong = MAL: { $job ->
    [stub] cortado al ras, nada rebrota
    [laterals] rebajado, y los laterales quedan
    [tip] se quitó demasiado
    [cut_back] quitado entero
   *[take_off] se quitó otro brote
}
crew-solved = Resuelto:
crew-try = Probar { $number }:
crew-answer = Respuesta { $number }
crew-find = hay { $count }
crew-find-sides = hay { $left } a la izquierda, { $right } a la derecha
crew-number = n.º { $number }{ $side ->
    [left] {" "}izquierda
    [right] {" "}derecha
   *[none] {""}
}
crew-missing = { $count ->
    [one] antes falta el árbol { $trees }
   *[other] antes faltan los árboles { $trees }
}
crew-tree = Árbol { $tree }
crew-in-bay = Vano { $bay }, árbol { $place } (árbol { $tree } de la hilera)
crew-trellis = En los alambres
crew-marking = Hoja de marcación para el capataz – { $job }
crew-marking-how = Quien pinta va primero; la cuadrilla corta lo pintado. Contar todo el árbol, pintar lo que se dice y marcar el árbol. Si la cuenta no coincide, no pintar nada: marcar con cinta.
crew-paint = { $tree }; pintar { $pieces }

# The page's sheet on which it is chosen what is printed.
hand-title = Repartir las labores de la hoja { $leaf }
hand-all = { $scheme }: { $passes ->
    [one] una pasada
   *[other] { $passes } pasadas
}, { $pieces ->
    [one] una labor
   *[other] { $pieces } labores
}, unas { $hours } h de una persona. Cada pasada es una vuelta por la hilera con una sola tarea, en este orden.
hand-none = En la hoja { $leaf } de { $scheme } no hay labores: no hay nada que repartir.
hand-usual = Nadie lo planeó: son las labores usuales de la hoja { $leaf }, que el esquema no tiene.
hand-usual-do = Mostrar las labores usuales de esta hoja
hand-usual-none = Las reglas usuales tampoco tienen ninguna.
hand-count = { $count ->
    [one] Una labor
   *[other] { $count } labores
} en { $trees ->
    [0] la espaldera
    [one] un árbol
   *[other] { $trees } árboles
}
hand-people = Personas juntas
hand-language = Hojas en
hand-print = Imprimir esta pasada
hand-print-all = Imprimir todas las pasadas
hand-mark = Imprimir su hoja de marcación
hand-mark-all = Imprimir las hojas de marcación del capataz
hand-trees = Árbol por árbol
hand-tree = { $tree }: { $count ->
    [one] una labor
   *[other] { $count } labores
}
hand-void = { $count ->
    [one] Una labor no se puede hacer como está la hilera, y no está en ninguna pasada:
   *[other] { $count } labores no se pueden hacer como está la hilera, y no están en ninguna pasada:
}
hand-rates = Cuánto tarda cada labor
hand-rates-what = Segundos de una persona. Escribir lo que tarda la cuadrilla: los minutos siguen, aquí y en las hojas.
hand-rates-source = de memoria
hand-reset = Tiempos y personas como de costumbre
rate-grub-out = Arrancar un árbol (s)
rate-plant = Plantar un árbol (s)
rate-stub = Rebajar a tocón (s)
rate-laterals = Los laterales de un vertical (s)
rate-tip = Un despunte (s)
rate-cut-back = Rebajar un brote (s)
rate-take-off = Quitar un brote (s)
rate-wire = Un alambre, de cualquier largo (s)
rate-wire-post = Un alambre, en cada poste (s)
rate-bud = Dejar una yema, o desyemar un brote (s)
rate-notch = Una entalladura (s)
rate-tie = Tumbar o enderezar un brote, y amarrarlo (s)
rate-walk = Ir a un árbol y mirarlo (s)
rate-disinfect = Desinfectar las herramientas (s)
refusal-seconds = Debe estar entre { $low } y { $high } segundos, no { $value }
refusal-people = Debe ser un número entero de personas entre { $low } y { $high }, no { $value }
