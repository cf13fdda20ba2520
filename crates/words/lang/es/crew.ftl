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
    [stub] serrucho de poda, cinta, una vara del largo del tocón
    [laterals] tijeras, cinta
    [tip] tijeras, cinta
    [cut_back] tijeras, cinta
    [take_off] serrucho, tijeras, cinta
    [wires] tensor, alicate
    [buds] manos, cinta
    [notch] cuchillo, cinta
   *[tie] amarras, fundas, cinta
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
    [one] Una persona, unos { $minutes } min para toda esta pasada
   *[other] { $people } personas, unos { $minutes } min para toda esta pasada, cada una
}{ $ties ->
    [0] .
    [one] ; una amarra, { $sleeves } fundas.
   *[other] ; { $ties } amarras, { $sleeves } fundas.
}
crew-each = En cada una: { $work }
crew-how = Los números se cuentan desde el tronco a lo largo del alambre, verticales y tocones juntos; si la madera va a ambos lados, cada lado aparte. Un tocón cuenta como uno con todo lo que brota de él; la punta inclinada del cordón no es una vertical. Seguir cada vertical hasta su propio tronco: las últimas de un árbol pueden estar sobre el pie del árbol siguiente. Contar todo el árbol antes del primer corte. Después del número está la distancia desde el pie del árbol a lo largo de la hilera, y el grosor en la base donde hace falta.
crew-bays = El vano { $bay } está entre el poste { $bay } y el poste { $next }, contados desde el comienzo de la hilera; en cada vano los árboles se cuentan de nuevo, y entre paréntesis va el número en toda la hilera.
crew-measured = Lo que queda se mide a lo largo del brote, por su lado de arriba, desde donde sale de la madera de la que crece.
crew-laterals = Entre paréntesis después del número está cuántos laterales buscar en esa vertical. Se quitan todos, desde su base hasta su punta, sean más o menos de los que se dicen: ese número no detiene a nadie. Cortar cada uno donde sale de la vertical; la vertical misma queda entera. El grosor se estima por el largo, y nadie anotó a qué altura ni de qué lado está cada uno: en el dibujo eso es inventado.
crew-laterals-of = { $piece } ({ $count })
crew-laterals-all = { $count ->
    [one] Un lateral
   *[other] { $count } laterales
} en total{ $measured ->
    [yes] , de unos { $length } de largo y { $thick } de grosor
   *[no] , sin medir
}, desde el cordón hasta { $high } sobre el suelo.
crew-cut = Después de cada número hay dos medidas: lo que se quita, medido hacia abajo desde la punta, y a qué altura sobre el suelo queda ese corte. La primera se toma con una vara, la segunda es para comprobarla. Si difieren más de un palmo: marcar el árbol con cinta, dejarlo, avisar.
crew-cut-of = { $piece }: { $off }, a { $height }
crew-plant = pie en { $foot } de la cinta; { $angle } desde el suelo, hacia la { $side ->
    [left] izquierda
   *[right] derecha
}; planta de { $length }
crew-along = A cada yema llevan dos medidas: “a lo largo” se mide sobre la madera misma y su curva, desde donde empieza (una guía que es el mismo tronco del árbol empieza en el suelo); la que va detrás del punto se mide a nivel a lo largo de la hilera, desde el pie del árbol.
crew-buds = Una yema que se deja queda en el lugar indicado, entera y sin golpes: marcarla. Con el pulgar se quita solo lo que la lista dice que se desyema, mientras está tierno.
crew-tie = La madera tumbada va a lo largo del alambre del cordón, a { $height } del suelo: doblarla despacio, de a poco, y parar si cruje. Atar flojo, con una funda donde se apoya en el alambre.
crew-wires = Un alambre corre por toda la hilera, de { $from } a { $to } en la cinta, a nivel de poste a poste, a la altura indicada.
crew-notch = Entallar más allá de la yema, por el lado de la punta de la madera y a un dedo de ella: atravesar la corteza hasta tocar la madera, un tercio de la vuelta, tan ancho como el filo es grueso (de memoria). La yema misma queda entera.
crew-stroke = { $job ->
    [stub] De las dos rayas, la de afuera, la más lejana del cordón, es el corte; lo punteado se quita.
   *[other] La raya es el corte; lo punteado más allá se quita.
}
crew-counted = { $found } ____
crew-differs = Si se cuentan otras verticales que las que se dicen, anotar la cuenta propia en la raya que sigue. En ese caso, o si hay goma o una rajadura: marcar el árbol con cinta, dejarlo, avisar.
crew-not-today = Hoy solo esta labor, y solo lo que tiene casilla: lo demás queda, aunque se vea mal.
crew-stick = cortar una vara de este largo: { $length } (exacto si se imprime al 100 %)
crew-list = { $count ->
    [one] Una casilla
   *[other] { $count } casillas
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
crew-try = Probar { $number }: señalar { $pieces }
crew-answer = Respuesta { $number }:
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
crew-in-bay = Vano { $bay }, árbol { $place } (hilera: { $tree })
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
hand-file = hoja-{ $leaf }-{ $marking ->
    [yes] marcacion
   *[no] cuadrilla
}{ $pass ->
    [0] {""}
   *[other] -{ $pass }
}
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
field-walk = Recorrerla en la hilera
field-begin = Empezar en el primer árbol
field-on = Seguir donde se dejó
field-second = Revisar cinco árboles hechos
field-back = Volver a las pasadas
field-progress = { $done } de { $all } árboles anotados, { $left ->
    [one] queda una labor
   *[other] quedan { $left } labores
}{ $skipped ->
    [0] {""}
    [one] , una saltada
   *[other] , { $skipped } saltadas
}
field-done = Hecho
field-skip = Saltar
field-all-done = Todo hecho
field-all-skip = Saltar este árbol
field-why = Por qué se salta
field-note = Nota en este árbol
field-before = Atrás
field-next = Siguiente
field-right = Bien
field-missed = Falta
field-wrong = Mal
field-extra = Cortes que nadie pidió: { $count }
field-less = Uno menos
field-more = Uno más
field-looked = Revisado: { $right } de { $pieces } bien, { $missed } sin hacer, { $wrong } mal; cortes que nadie pidió: { $extra }
field-take = Tomar marcas de un archivo…
field-take-what = El plan guardado en el teléfono: lo marcado y anotado allí entra donde la labor es la misma.
field-taken = { $pieces ->
    [one] Una labor tomada
   *[other] { $pieces } labores tomadas
}, notas: { $notes }; anotadas antes: { $same }; de labores que aquí son otras: { $strange }
field-strange = Árbol { $tree }: { $work } no está en este plan, o es otra
field-no-scheme = El esquema { $scheme } no está en este plan
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

# Lo que se pide para una hilera, y cómo se plantan sus árboles.
order-headed-typed = r rebajado rebajada h headed
refusal-delivered = Renglón { $line }: { $reason }
refusal-delivered-range = Renglón { $line }: { $value } no es un largo de árbol para plantar. Debe estar entre { $low } y { $high } sobre el suelo
order-title = Pedido y materiales: { $row }
order-what = Para todo el muro terminado, como si aún no hubiera nada: cada lugar tiene su árbol, los alambres llegan a la altura del muro. Los postes solo se cuentan aquí, nunca se calculan.
order-trees = { $unheaded ->
    [yes] Árboles sin rebajar, yemas intactas, de { $length } sobre el suelo al menos
   *[no] Árboles de dos guías, cada una de { $length } sobre la horqueta al menos
}
order-spare = Árboles de reserva, de { $length } al menos
order-wire-at = Alambre a { $height }, { $kind ->
    [plastic] plastificado
   *[bare] de acero desnudo
}{ $new ->
    [yes] {""}
   *[no] {" "}(la hilera lo tiene)
}
order-posts = Postes, a { $span } como máximo{ $assumed ->
    [yes] {" "}(supuesto: la hilera no tiene)
   *[no] {""}
}
order-ties = Amarras del muro terminado
order-sleeves = Fundas: una por cada amarra en alambre desnudo
order-sum = Lo que tiene precio cuesta { $cost } { $currency }
order-coils = Un rollo de { $kg } kg tiene { $coil } de alambre desnudo de { $wire }: { $coils ->
    [0] ningún rollo
    [one] un rollo
   *[other] { $coils } rollos
}. Va contado un metro en cada punta del alambre para amarrarlo (de memoria). El plastificado se compra por metro.
order-loads = Lo que carga cada alambre entre dos postes
order-height = Alambre a
order-crop-on = Fruta (kg/m)
order-tension = Tensión (kN)
order-sag = Flecha
order-load = Con { $t } t/ha hay { $kg } kg de fruta por metro de hilera; cada alambre carga su parte del muro. Si el alambre del cordón la cargara toda, su tensión sería { $tension } kN y su flecha { $sag }. Sin carga se tensa a { $setting } kN, nunca sobre 1,1 kN; uno de 2,5 mm se corta desde { $breaking } kN (datos de alambre de cerco). Madera, hojas y viento no se cuentan.
order-spares = Árboles de reserva
order-crop = Fruta que cargan los alambres
order-crop-unit = t/ha
order-wire = Grosor del alambre
order-source-memory = de memoria
order-source-memory-judged = estimado, dentro de cosechas informadas
order-prices = Precios, si se quiere una suma
order-prices-what = Cada uno como se compra, en cualquier moneda. Se guardan en este dispositivo, para todas las hileras, y no van en ningún plan.
order-currency = Moneda
order-price = { $item ->
    [tree] Un árbol
    [wire_m] Alambre desnudo, el metro
    [covered_wire_m] Alambre plastificado, el metro
    [post] Un poste
    [tie] Una amarra
   *[sleeve] Una funda
}
order-refused = Debe estar entre { $low } y { $high }, no { $value }
order-column-what = Qué
order-column-amount = Cuánto
order-column-cost = Costo
order-print = Imprimir el pedido
order-save = Guardarlo como tabla (.csv)
order-table-name = pedido
delivered-title = Al recibirlos
delivered-what = Medir cada árbol sobre el suelo y escribir un largo por renglón, con r detrás si llegó rebajado: { $one } r. Los árboles se reparten de modo que en total falte lo menos; uno rebajado donde se necesita sin rebajar cuenta como 0,15 m que faltan (estimado).
delivered-lengths = Largos de los árboles recibidos
delivered-lay = Repartirlos
delivered-told = { $trees ->
    [one] Un árbol
   *[other] { $trees } árboles
} para { $places ->
    [one] un lugar
   *[other] { $places } lugares
}: faltan { $lacking } en total, { $short ->
    [0] ningún árbol queda corto
    [one] un árbol queda corto
   *[other] { $short } árboles quedan cortos
}, { $headed ->
    [0] ninguno va rebajado donde no debe
    [one] uno va rebajado donde no debe
   *[other] { $headed } van rebajados donde no deben
}, { $empty ->
    [0] cada lugar tiene su árbol
    [one] un lugar queda sin árbol
   *[other] { $empty } lugares quedan sin árbol
}, { $over ->
    [0] no sobra ninguno
    [one] sobra uno
   *[other] sobran { $over }
}.
delivered-none = Escribir primero un largo por renglón.
placed-none = Sin árbol: el lugar queda vacío
placed-tree = Árbol recibido { $number }, { $length }{ $cut ->
    [yes] {" "}rebajado
   *[no] {""}
}{ $lacks ->
    [gap] , le faltan { $short }: el alambre queda desnudo de { $from } a { $to } hasta que crezca la punta
    [short] , le faltan { $short }
   *[no] {""}
}{ $headed ->
    [yes] , aunque se necesita sin rebajar
   *[no] {""}
}
placed-line = Árbol { $tree }, necesita { $length }: { $placed }
delivered-take = Pasarlos al registro
delivered-take-what = Cada tallo de la hilera como se encontró recibe el largo de su árbol; de los rebajados se toma un cuarto como cortado (supuesto). Un lugar sin árbol queda registrado como perdido. Deshacer una vez lo devuelve todo.
delivered-not-planted = La hilera no está recién plantada: el registro no se toca.
delivered-taken = El registro tiene los árboles como se recibieron.
planting-file = plantacion
planting-print = Imprimir la hoja de plantación
planting-save = Guardar la hoja de plantación como tabla (.csv)
planting-title = Hoja de plantación
planting-how = Poner la cinta a lo largo de la hilera de modo que el pie del primer árbol quede a { $first }{ $posts ->
    [yes] {" "}y el primer poste a { $post }
   *[no] {""}
}. Poner cada pie en su marca, el tallo en su ángulo, inclinado a lo largo de la hilera y no a través. Si un poste está a menos de { $clear }, preguntar antes de cavar.
planting-all = Todos iguales: a { $angle } del suelo, inclinados hacia la { $side ->
    [left] izquierda, hacia el comienzo de la hilera
   *[right] derecha, hacia el final de la hilera
}
planting-stock = Plantar sin rebajar, no cortar la punta, dejar todas las yemas. El injerto queda sobre el suelo. Izquierda y derecha son como se dibuja el muro: el comienzo de la hilera está a la izquierda.
planting-list = { $count ->
    [one] Un lugar
   *[other] { $count } lugares
}: marcar cada uno
planting-place = Árbol { $tree }: pie a { $foot }
planting-lean = { $angle }, hacia la { $side ->
    [left] izquierda
   *[right] derecha
}
planting-length = Necesita { $length }
planting-end = Termina con la hilera: sin árbol siguiente hacia donde va
planting-post = Poste a { $near }: preguntar
planting-wire = alambre a { $height }
planting-angle = { $angle } del suelo
planting-tape = la cinta, hasta el pie
caution-planting = Cables y cañerías: saber por dónde van antes de cavar. Las raíces quedan húmedas y a la sombra hasta estar en la tierra.

counted-buds = { $spurs ->
    [one] Un dardo contado
   *[other] { $spurs } dardos contados
} en { $trees ->
    [one] un árbol
   *[other] { $trees } árboles
}: { $buds } yemas de flor por dardo en promedio, { $dead } de ellas muertas{ $opened ->
    [yes] , { $flowers } flores por yema
   *[no] ; no se abrió ninguna yema, se suponen { $each } flores por yema
}. El modelo tiene { $usual } yemas de { $each } flores en los dardos de estos árboles: las flores vivas son { $factor } de eso{ $ranged ->
    [yes] , de { $low } a { $high } en ocho de diez conteos así
   *[no] ; un solo dardo no dice qué tan ancho es
}{ $held ->
    [yes] . Se contó más: lo que pasa de dos veces y media lo del modelo es más bien un error y no cuenta (práctica común, sin fuente)
   *[no] {""}
}
counted-crop = Producción de la hoja { $leaf }: { $crop } t/ha según el conteo{ $ranged ->
    [yes] , de { $low } a { $high } por su propio margen
   *[no] {""}
}; { $model } según el modelo solo
counted-tips = Los porcentajes siguen las yemas contadas para la hoja { $leaf }, la cosecha sobre la que actúan estos despuntes
counted-no-tips = Las yemas contadas hablan de la cosecha de la hoja { $leaf }; los despuntes actúan sobre la siguiente, y sus porcentajes siguen siendo los del modelo

count-do = Contar yemas en los dardos
count-what = Unos dardos en cinco árboles, contados en invierno, dicen qué producción se puede esperar.
count-title = Yemas contadas antes de la hoja { $leaf }
count-how = Cuatro dardos en cada uno de los árboles repartidos por la hilera: las yemas de flor del dardo, cuántas están muertas (al cortarlas, pardas por dentro) y las flores de una yema donde se abra una. Enter pasa al campo siguiente; una línea vacía no cuenta. Lo que queda aquí se guarda en el plan al salir, como un solo paso.
count-tree = Árbol { $tree }
count-head-spur = Dardo
count-head-buds = yemas
count-head-dead = muertas
count-head-flowers = flores
count-cell = { $what }: árbol { $tree }, dardo { $spur }
count-none = Nada contado: la producción de la hoja { $leaf } es la del modelo.
count-keep = Guardar y volver
count-remove = Quitar el conteo

# Un informe para un cliente.

report-title = Informe: { $row }
report-fields = Cuartel: { $block }   Fecha: { $date }   Asesor: { $by }
report-of = { $row }. Esquema: { $scheme }.
report-picture-found = Como se encontró, antes de las labores de la hoja { $leaf }
report-picture-advised = Como se aconseja, después de las labores { $when }
report-when = { $window ->
    [bud_swell] a yema hinchada de la hoja { $leaf }
    [early_summer] al inicio del verano de la hoja { $leaf }
    [after_harvest] después de la cosecha de la hoja { $leaf }
   *[dormant] en reposo, antes de que se hinchen las yemas de la hoja { $leaf }
}
report-found = Lo encontrado: { $count ->
    [0] nada
    [one] un asunto
   *[other] { $count } asuntos, primero los más graves y grandes
}
report-found-none = No se encontró nada que atender.
report-matter = { $urgent }: { $matter }
report-outcome = { $how ->
    [settled] Lo resuelven las labores aconsejadas, { $when }.
    [less] Lo reducen las labores aconsejadas, { $when }.
    [way] Lo atienden las labores aconsejadas, { $when }; lo que queda espera su resultado.
   *[open] Las labores de esta hoja no lo tocan.
}
report-advised = Lo que se aconseja, cuándo y por qué
report-sum = Esquema { $scheme }: { $passes ->
    [one] una pasada
   *[other] { $passes } pasadas
}, { $pieces ->
    [one] una labor
   *[other] { $pieces } labores
}, unos { $minutes } min de una persona, de memoria.
report-none = No se aconseja ninguna labor en la hoja { $leaf }.
report-pass = { $job }: { $when }
report-why = Por qué: { $why }
report-why-kind = { $kind ->
    [lay] Un brote tumbado a lo largo del alambre llena un tramo desnudo; tiene que doblarse sin quebrarse (práctica común, sin fuente)
    [plant] Un lugar vacío no da nada y deja su alambre desnudo; una planta nueva lo llena en pocas hojas (práctica común, sin fuente)
    [remove_tree] Un árbol muerto ocupa un lugar que una planta nueva puede llenar (práctica común, sin fuente)
    [replace_tree] Un árbol que falla deja su alambre desnudo; una planta nueva lo llena en pocas hojas (práctica común, sin fuente)
    [stand] Un vertical derecho guarda su lugar en el muro y no da sombra al vecino (práctica común, sin fuente)
    [move_bud] Yemas a distancias parejas dan un muro parejo (práctica común, sin fuente)
    [cover_wire] El alambre desnudo roza y deja entrar el cáncer; una cubierta baja el riesgo, no lo quita (práctica común, sin fuente)
    [remove_wire] Un alambre que no lleva nada estorba (práctica común, sin fuente)
   *[move_wire] Los alambres a la altura de su madera la llevan (práctica común, sin fuente)
}
report-but = Sin esta pasada, hechas las otras, cinco hojas traen según el modelo { $parts }.
report-but-same = la misma producción, el mismo llenado y la misma edad de la madera
report-but-crop = { $before } t/ha en vez de { $after }
report-but-fill = un cordón lleno a { $was } en vez de { $filled }
report-but-age = madera de { $old } temporadas como máximo en los inviernos hasta entonces en vez de { $age }
report-but-costs = Esta pasada cuesta producción en estas hojas; por qué se hace de todos modos se dice arriba.
report-brings = Lo que traen las labores de esta hoja en cinco hojas, al lado de la misma hilera sin hacer nada en esta hoja, según un modelo calibrado: producción { $after } t/ha en vez de { $before } (una diferencia de { $low } a { $high }), de ellas en la próxima cosecha { $then } en vez de { $else }; cordón lleno al final de la última a { $filled } en vez de { $was }; las distancias entre verticales varían en { $spacing } en vez de { $uneven }; se capta { $light } de la luz de una temporada despejada en vez de { $dark }; la madera más vieja en los inviernos hasta entonces, { $age } en vez de { $old } temporadas.
report-left = Se deja este año: { $count ->
    [0] nada
    [one] un asunto
   *[other] { $count } asuntos
}
report-left-none = Nada se deja este año a propósito; lo que las labores no resuelven se dice arriba, en lo encontrado.
report-reason = Motivo: { $reason }
report-marks = Marcas en los dibujos: { $count ->
    [0] ninguna
   *[other] { $count }
}
report-marks-none = No hay marcas puestas en el muro.
report-noted = Notas del registro, una hoja de papel en los dibujos
report-changes = Cada cambio, árbol por árbol: { $count ->
    [0] ninguno
   *[other] { $count }
}
report-changes-none = El plan no cambia nada en ningún árbol.
report-time = hoja { $leaf }, { $window ->
    [bud_swell] yema hinchada
    [early_summer] inicio del verano
    [after_harvest] poscosecha
   *[dormant] reposo
}
report-change = { $when }: { $work }{ $stands ->
    [yes] {" "}(por regla)
   *[no] {""}
}
report-care = Tener cuidado
report-defers = Los reglamentos locales, las etiquetas de los productos y la ley van antes que este informe. Postes, anclajes, alambre tensado y cargas de viento son para una persona calificada; aplicaciones, pinturas y reguladores de crecimiento, para quien tenga licencia donde se pida, según su etiqueta. Este informe no da dosis.
report-model = Lo que se dice de las hojas por venir es de un modelo cuyos valores son en su mayoría estimados: muestra lo que se puede esperar, no lo que será.
draft-not-taken = Hay un borrador abierto sin tomar: ninguna de sus labores está en lo que se reparte aquí.
report-block = Cuartel
report-date = Fecha
report-by = Asesor
report-holds = La hilera como se encontró y como se aconseja en la hoja { $leaf }, lo encontrado, lo que se aconseja, cuándo y por qué, lo que se deja, las marcas, cada cambio por árbol. Lo que está en los campos se guarda en este aparato; los vacíos llevan una línea para escribir.
report-print = Imprimir el informe
report-making = Se prepara el informe …
report-file = informe
report-changes-how = Todo lo planeado desde esta hoja en adelante, como se camina la hilera. Pulsar una línea para ir a su árbol.
report-more = { $count ->
    [one] Mostrar un árbol más
   *[other] Mostrar { $count } árboles más
}
