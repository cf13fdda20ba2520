# What the core says of rows, work and findings. Values come with their units.

name-tree = árbol { $tree }
name-in-bay = { $part }, vano { $bay } árbol { $place }
name-of-tree = { $part }, árbol { $tree }
# Parts of a tree, counted from its trunk on; where its wood goes both ways, on each side by itself.
name-to = { $side ->
    [left] {" a la izquierda"}
    [right] {" a la derecha"}
   *[none] {""}
}
name-stem = tallo
name-leader = { $of ->
    [1] guía{ name-to }
   *[other] guía { $number } de { $of }{ name-to }
}
name-upright = vertical { $number } de { $of }{ name-to }
name-stub = tocón { $number } de { $of }{ name-to }
name-under = tocón bajo el vertical { $on }{ name-to }
name-bud = yema { $number } de { $of }{ name-to }
name-end = { $of ->
    [1] brote de punta{ name-to }
   *[other] brote de punta { $number } de { $of }{ name-to }
}
name-side = brote de costado { $number } de { $of }{ name-to }
name-on-upright = { $of ->
    [1] brote en el vertical { $on }{ name-to }
   *[other] brote { $number } de { $of } en el vertical { $on }{ name-to }
}
name-on-stub = { $of ->
    [1] brote en el tocón { $on }{ name-to }
   *[other] brote { $number } de { $of } en el tocón { $on }{ name-to }
}
name-shoot = brote { $number } de { $of }{ name-to }

refusal-limit = El límite { $limit } debe estar entre { $low } y { $high }, no { $value }
refusal-left-reason = Decir en 1 a { $high } caracteres por qué se deja; aquí hay { $value }
refusal-left-many = Un plan deja { $high } asuntos como máximo; retomar uno primero
refusal-mark-text = Una marca dice algo en { $low } a { $high } caracteres; aquí hay { $value }
refusal-mark-ends = Una flecha, una distancia y un tramo tienen dos extremos, una nota uno
refusal-mark-many = Un plan lleva { $high } marcas como máximo; quitar una primero
refusal-no-mark = No hay marca { $value }; la última es la { $high }
refusal-field-many = Un plan lleva { $high } labores dejadas, revisadas o anotadas como máximo
refusal-field-text = Esto tiene { $value } caracteres; caben { $high }
refusal-extra = Los cortes que nadie pidió deben ser { $high } como máximo en un árbol, no { $value }
refusal-count = { $what }: entre { $low } y { $high }, no { $value }
count-leaf = La hoja
count-trees = Árboles contados
count-spurs = Dardos contados en un árbol
count-buds = Yemas de flor en un dardo
count-dead = Yemas muertas en un dardo
count-flowers = Flores en una yema
refusal-scheme = El esquema debe estar entre 1 y { $high }, no { $value }
refusal-schemes = Un plan lleva { $high } esquemas como máximo
refusal-scheme-name = Cada esquema debe tener un nombre, y uno propio, no «{ $name }»
refusal-scheme-last = El único esquema de un plan se queda
refusal-leaf = Las labores deben ser de una hoja entre { $low } y { $high }, no { $value }
refusal-no-tree = No hay árbol { $tree } en esta hilera
refusal-before-found-row = Las labores deben ser de la hoja en que se midió la hilera, o de después
refusal-before-found = Árbol { $tree }: las labores deben ser de la hoja en que se midió la hilera, o de después
refusal-no-shoot = Árbol { $tree }: el brote no está en esta época; elegir uno que esté en el árbol
refusal-rise = { $part }: la subida debe estar entre { $low } y { $high }, no { $value }
refusal-lean = { $part }: la inclinación debe estar entre { $low } y { $high }, no { $value }
refusal-stub-length = { $part }: un tocón debe medir entre { $low } y { $high }, no { $value }
refusal-cut-length = { $part }: lo que queda debe ser { $low } o más, y menos que sus { $high }, no { $value }
refusal-stem = { $part }: el tallo no se puede rebajar a tocón ni quitar; cualquier otro brote sí
refusal-bend-bud = { $part }: una yema no se puede doblar; un brote que ya creció sí
refusal-bud-not-laid = { $part }: una yema se deja en madera tumbada por el alambre, o en un tallo que todavía se va a tumbar
refusal-bud-place = { $part }: una yema debe estar entre { $low } y { $high } a lo largo, no en { $value }
refusal-bud-near = { $part }: una yema en { $value } debe estar a { $low } o más del vertical en { $near }
refusal-shoots = Árbol { $tree }: un árbol tiene { $high } brotes como máximo

# Files

refusal-file-size = El archivo puede tener { $high } MB como máximo, no { $value }
refusal-file-text = Renglón { $line }: esto no es texto; guardar el archivo como texto en UTF-8
refusal-file-kind = Esto no es { $wanted ->
    [table] una tabla
   *[plan] un plan
}: es { $kind ->
    [workbook] un libro de cálculo u otro archivo comprimido. Guardar la hoja como CSV
    [print] un documento para imprimir (PDF)
    [picture] una imagen
    [drawing] un dibujo (SVG)
    [page] una página web u otro archivo con etiquetas
    [list] una lista en JSON
    [table] la tabla de una hilera medida. Importarla primero
   *[plan] un plan, u otro archivo en JSON
}
refusal-file-empty = El archivo está vacío
refusal-file-format = El archivo no es un plan: su formato debe ser { $accepted }, no { $value }
refusal-file-too-new = El plan es de la versión { $value } y pide un programa más nuevo; este lee las versiones 1 a { $high }
refusal-file-version = La versión debe estar entre 1 y { $high }{ $text ->
    [yes] , sin comillas
   *[no] {""}
}, no { $value }
refusal-file-cut = El archivo está cortado: termina en el renglón { $line }, columna { $column }, antes que el plan
refusal-file-damaged = El archivo está dañado en el renglón { $line }, columna { $column }: { $reason }
refusal-file-content = Renglón { $line }, columna { $column }: { $reason }
refusal-archive-one = Este es un solo plan y no un archivo de varias hileras: se abre como plan
refusal-archive-version = El archivo de varias hileras es de la versión { $value } y pide un programa más nuevo; este lee la versión { $high }
refusal-archive-plans = Un archivo de varias hileras puede tener { $high } hileras como máximo, no { $value }
refusal-archive-empty = No hay hileras en el archivo
json-whole = el archivo
json-type = { $path } debe ser { $accepted }, no { $value }
json-missing = { $path } debe tener { $name }; falta
json-twice = { $path }: { $name } está ahí dos veces; debe estar una
json-unknown = { $path } no puede tener { $name }; debe ser uno de { $names }
json-word = { $path } debe ser uno de { $names }, no '{ $value }'
json-other = { $path }: { $reason }
json-is-group = un grupo de nombres y valores entre llaves
json-is-list = una lista entre corchetes
json-whole-between = un número entero entre { $low } y { $high }
json-whole-from-0 = un número entero, 0 o más
json-number = un número
json-text = un texto entre comillas
json-truth = true o false
refusal-file-value = { $path } debe estar entre { $low } y { $high }, no { $value }
refusal-file-whole = { $path } debe ser un número entero entre { $low } y { $high }, no { $value }
refusal-file-long-text = { $path }: un texto puede tener { $high } caracteres como máximo, no { $value }
refusal-file-twice = { $path }: { $value } está ahí dos veces; cada uno debe estar una
refusal-file-rule = { $path }: { $rule }

refusal-csv-leaf = La hoja debe estar entre 1 y { $high }, no { $value }
refusal-csv-columns = Renglón { $line }: no hay columna { $missing }; las columnas que hay: { $found }
refusal-csv-column-twice = La columna { $column } está dos veces; debe estar una
refusal-csv-lines = Puede haber { $high } renglones como máximo
refusal-csv-above = Puede haber { $high } renglones como máximo sobre los nombres de las columnas
refusal-csv-wide = Renglón { $line }: puede haber { $high } celdas como máximo
refusal-csv-long = { $column }: puede haber { $high } caracteres como máximo, no { $value }
refusal-csv-terms = { $column }: puede haber { $high } temporadas como máximo, no { $value }
refusal-csv-bad-lines = { $value } renglones no se pueden tomar, el primero es el { $line }: { $reason }. Hasta { $high } renglones malos se nombran y se dejan fuera
refusal-csv-trees = Una hilera puede tener { $high } árboles como máximo, no { $value }
refusal-csv-cells = { $value } celdas para { $high } columnas. Los largos con coma decimal piden punto y coma o tabulador entre las celdas
refusal-csv-quote = las comillas que se abren aquí no se cierran nunca
refusal-csv-empty = { $column } está vacío; debe ser { $accepted }
refusal-csv-word = { $column } debe ser { $accepted }, no '{ $value }'
csv-of-tree = árbol { $tree }: { $why }
refusal-csv-unread = { $column } debe ser { $accepted }: { $reason }
refusal-csv-posts = posts: { $reason }. Un poste lleva su propia celda, o entre dos van una coma y un espacio
refusal-csv-length = length debe ser más de 0, y { $high } como máximo, no { $value }
refusal-csv-first-twice = el árbol { $tree } ya tiene su primer renglón, el { $line }: este es otra vez el mismo árbol, o se quería otro número
refusal-csv-value = { $column } debe estar entre { $low } y { $high }, no { $value }
refusal-csv-twice = { $what } está dos veces; debe estar una
refusal-csv-no-tree = el árbol { $tree } no tiene ningún renglón de stem o leader que se pueda tomar, y así nada puede crecer de él
refusal-csv-line-twice = este renglón es igual al { $line }; cada brote se dice una vez
refusal-csv-lost = el árbol { $tree } está perdido según el renglón { $line }; un árbol perdido no lleva otro renglón
refusal-csv-second-stem = el árbol { $tree } ya tiene un tallo, renglón { $line }; debe tener uno
refusal-csv-parent = parent debe estar entre los renglones del árbol { $tree } que se pudieron tomar; '{ $value }' no está
refusal-csv-pose = pose de { $kind } debe ser { $accepted }, no '{ $value }'
refusal-csv-bend = bend radius debe estar vacío, no '{ $value }': esto no está tumbado ni es un tallo parado, y no tiene curva
refusal-csv-leaders = árbol { $tree }: puede haber { $high } brotes tumbados como máximo
refusal-csv-place = place debe estar entre { $low } y { $high }: { $value } está { $side ->
    [before] antes del comienzo de su madre ({ $part }) en { $low }
   *[beyond] más allá de la punta de su madre ({ $part }) en { $high }
}
refusal-csv-along = place debe estar entre along { $low } y along { $high }: along { $value } está { $side ->
    [before] antes de la base
   *[beyond] más allá de la punta
} de su madre ({ $part })
refusal-csv-season = season debe estar entre 0 y { $high }, no { $value }: la hilera se toma como estaba antes de la hoja { $leaf }
refusal-csv-steep = place debe ser una distancia desde la base de su madre, como 'along 0.30 m', no '{ $value }': su madre sube derecha, y ahí un lugar de la hilera no dice ninguna altura

measured-left-out = { $count ->
    [one] Un renglón de la tabla quedó fuera
   *[other] { $count } renglones de la tabla quedaron fuera
}
measured-line = Renglón { $line }: { $why }
measured-more = { $count ->
    [one] Un renglón más quedó fuera
   *[other] { $count } más quedaron fuera
}

file-said-encoding = El archivo no está en UTF-8; se leyó como { $encoding }
file-said-above = { $count ->
    [one] «{ $text }», sobre los nombres de las columnas, se toma como nombre de la hilera
   *[other] El primero de { $count } renglones sobre los nombres de las columnas, «{ $text }», se toma como nombre de la hilera; los otros se pasan por alto
}
file-said-unit-doubt = { $column }: los números se toman como { $unit }, pero parecen { $likely }. ¿Son { $likely }? Entonces escribir «{ $column } ({ $likely })» arriba de ellos
file-said-crowded = Los árboles están a { $spacing }; lo usual es { $low } a { $high }. ¿Sus lugares están en otra unidad? Entonces escribirla arriba, como en «place (cm)»
file-said-passed = { $count ->
    [one] Un renglón sobre los nombres de las columnas se pasa por alto
   *[other] { $count } renglones sobre los nombres de las columnas se pasan por alto
}
file-said-unit = { $column }: los números sin unidad se toman como { $unit }
file-said-column = La columna '{ $column }' no es conocida; quedó fuera
file-said-leaf = La hilera se toma como estaba antes de la hoja { $leaf }
file-said-stretch = El cordón se debe llenar de { $from } a { $to }
file-said-seasons = { $count ->
    [one] Un brote sin temporada se toma como crecido en la última
   *[other] { $count } brotes sin temporada se toman como crecidos en la última
}
file-said-in-all = { $count ->
    [one] Un largo único se reparte entre sus temporadas como crecen los brotes por lo común, con todas menos la última despuntadas en un quinto; es un supuesto
   *[other] { $count } largos únicos se reparten entre sus temporadas como crecen los brotes por lo común, con todas menos la última despuntadas en un quinto; es un supuesto
}
file-said-diameters = { $count ->
    [one] Un diámetro no se midió y se estima por el largo
   *[other] { $count } diámetros no se midieron y se estiman por el largo
}
file-said-laid = { $count ->
    [one] Un tallo que alcanza el alambre se toma como tumbado por él; su pose puede decir free
   *[other] { $count } tallos que alcanzan el alambre se toman como tumbados por él; su pose puede decir free
}
file-said-wires = Ningún renglón dice los alambres: se toman { $count } desnudos, de { $low } a { $high } («wire,0.60 m,plastic» dice uno)
file-said-uncovered = Los alambres de los que nada dice qué los cubre se toman como desnudos
file-said-wall = Ningún renglón dice la altura del muro: se toma { $height }
file-said-unlikely = Renglón { $line }: { $what }
file-said-meant = Renglón { $line }: { $column } se lee como { $value }, según lo dicho
file-said-unlikely-more = { $count ->
    [one] Un renglón más es igual de improbable
   *[other] { $count } renglones más son igual de improbables
}
file-said-end = el lugar { $value } está { $off } { $side ->
    [before] antes del comienzo de su madre ({ $part }): se toma ahí
   *[beyond] más allá de la punta de su madre ({ $part }): se toma en la punta
}
file-said-ends = Renglón { $line }: { $what }
file-said-ends-more = { $count ->
    [one] Un lugar más, apenas fuera de su madre, se toma en su extremo
   *[other] { $count } lugares más, apenas fuera de su madre, se toman en su extremo
}
work-lay = tumbar por el alambre a la { $toward ->
    [left] izquierda
   *[right] derecha
}, con { $rise } de subida
work-lay-level = tumbar a nivel por el alambre a la { $toward ->
    [left] izquierda
   *[right] derecha
}
work-stand = parar, con { $lean } de inclinación
work-cut = rebajar a { $keep }
work-stub = rebajar a tocón de { $keep }
work-remove = quitar
work-keep-bud = dejar una yema en { $at } a lo largo
work-notch = entallar sobre una yema en { $at } a lo largo
finding-cordon-gap = { $where ->
    [between] Cordón desnudo en { $length } entre los árboles { $left } y { $right }
    [within] Cordón desnudo en { $length } en el árbol { $left }
    [after] Cordón desnudo en { $length } después del árbol { $left }, hasta el fin de la hilera
    [before] Cordón desnudo en { $length } antes del árbol { $right }, al comienzo de la hilera
   *[alone] Cordón desnudo en { $length } desde { $from } de la hilera
}{ $expected ->
    [0] {""}
   *[other] ; se espera que la punta llegue ahí al terminar la hoja { $expected }
}{ $passes ->
    [yes] ; por encima de { $over } pasa madera, hasta { $high } sobre el alambre: { $part }
   *[no] {""}
}
finding-cordon-overlap = { $where ->
    [between] El cordón se traslapa en { $length }: los árboles { $left } y { $right } van lado a lado
   *[within] El cordón se traslapa en { $length } en el árbol { $left }
}
finding-cordon-fill-due = Cordón lleno al { $share }; al terminar la hoja { $due } tocaba { $asked }. Todavía hay { $bare } desnudos
finding-uprights-too-close = Separación de { $distance }; hacen falta { $least } al menos: { $left }, y { $right }{ $wide ->
    [yes] ; quitar uno dejaría { $leaves }, un espacio demasiado ancho
   *[no] {""}
}
finding-uprights-too-far = { $bare ->
    [yes] { $distance } de cordón sin vertical, aparte de lo desnudo; { $most } como máximo: desde { $left } hasta { $right }
   *[no] { $distance } de cordón sin vertical; { $most } como máximo: desde { $left } hasta { $right }
}{ $notched }
finding-work-void = Una labor planeada de la hoja { $leaf } no hace nada. { $why }

remedy-lower-leader = Bajar al alambre: { $part }. { $outcome ->
    [closed] Cierra el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}
remedy-lay-all = Tumbar los { $count } tallos por el alambre, cada uno hacia donde se plantó. { $outcome ->
    [closed] Cierra el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}
remedy-lay-leader = Tumbar por el alambre: { $part }. { $outcome ->
    [closed] Cierra el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}
remedy-fill-forward = Tumbar hacia adelante por el alambre: { $part }. { $outcome ->
    [closed] Cierra el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}
remedy-fill-backward = Tumbar hacia atrás por el alambre: { $part }. { $outcome ->
    [closed] Cierra el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}
remedy-fill-both = Tumbar desde los dos lados: { $part }, y { $other }. { $outcome ->
    [closed] Cierran el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}
remedy-end-leader = Rebajar a { $keep }, donde empieza la otra: { $part }. { $uprights ->
    [0] No se pierde ningún vertical
    [one] Con ella se va un vertical
   *[other] Con ella se van { $uprights } verticales
}{ $outcome ->
    [closed] {""}
   *[left] ; { $leaves } se siguen traslapando
}
remedy-stand-up = Parar como vertical: { $part }. { $outcome ->
    [closed] Ya nada se traslapa
   *[left] { $leaves } se siguen traslapando
}
remedy-take-off = { $where ->
    [between] Quitar { $part }; sus vecinos quedan a { $leaves }
   *[end] Quitar { $part }
}
remedy-keep-buds-between = Dejar { $buds ->
    [one] una yema
   *[other] { $buds } yemas
} entre { $left } y { $right }; el espacio más ancho queda en { $leaves }{ $notched }
remedy-stub-each = Rebajar a tocón { $count ->
    [one] un vertical, que abre su lugar
   *[other] { $count } verticales, uno por árbol, que abren sus lugares
}: { $count ->
    [one] {""}
   *[other] {"primero "}
}{ $part }
remedy-even-out = Quitar { $part }, y dejar una yema a la mitad de su lugar; el espacio más ancho queda en { $leaves }{ $notched }
remedy-stand-free = Parar como vertical: { $part }. El espacio más ancho que queda es { $leaves }
remedy-keep-buds = { $buds ->
    [one] Dejar una yema entre { $left } y { $right }; el espacio más ancho queda en { $leaves }
   *[other] Dejar { $buds } yemas entre { $left } y { $right }; el espacio más ancho queda en { $leaves }
}{ $notched }

finding-stock-too-short = Planta corta para su lugar, por { $short }: { $part }. Tiene { $length }, puede crecer { $growth } hasta terminar la hoja { $due }, y necesita { $needed }
finding-leans-opposed = Los árboles { $left } y { $right } se inclinan en sentido contrario: entre ellos quedan { $length } desnudos. Plantarlos en pares, darles dos guías, o tumbar un brote hacia atrás
finding-bend-too-tight = { $fold ->
    [yes] Doblado en su base: { $part }. Tiene { $diameter } de grosor; la madera que estuvo parada se tumba solo hasta { $most }
   *[no] Curva demasiado cerrada: { $part }. Radio { $radius }; con sus { $diameter } lo seguro es { $least } al menos
}
finding-uprights-too-few = Árbol { $tree }: { $count ->
    [0] ningún vertical
    [one] un vertical, yema o tocón
   *[other] { $count } verticales, yemas y tocones
} en { $length } de cordón; { $asked ->
    [one] hace
   *[other] hacen
} falta { $asked } al menos{ $notched }
finding-uprights-too-many = Árbol { $tree }: { $count } verticales, yemas y tocones en { $length } de cordón; hay espacio para { $asked }
finding-uprights-uneven = Árbol { $tree }: sus { $count } verticales de una misma edad están desparejos en { $of ->
    [thickness] grosor
   *[length] largo
}, { $spread }; el límite es { $most }
finding-upright-over-vigorous = Demasiado vigor junto al tronco: { $part }. { $diameter } de grosor, { $ratio } veces los { $median } usuales en su árbol{ $goes ->
    [yes] {""}
   *[no] ; espera su turno en la renovación de los inviernos
}
finding-upright-outside = Punta { $beyond } más allá de su propio cordón: { $part }. El límite es { $most }
finding-uprights-crossing = { $count ->
    [one] Se cruza con su vecino: { $part } con { $other }
   *[other] Se cruza con { $count } vecinos: { $part } con { $other } y más
}
finding-side-shoots = Árbol { $tree }: { $count ->
    [one] queda una yema o brote
   *[other] quedan { $count } yemas y brotes
} en los costados o debajo del cordón
finding-laterals-due = Árbol { $tree }: { $count ->
    [one] un lateral
   *[other] { $count } laterales
} en { $uprights ->
    [one] un vertical
   *[other] { $uprights } verticales
}; desde la hoja { $due } se quitan
finding-tipping-due = Árbol { $tree }: { $count ->
    [one] un vertical está
   *[other] { $count } verticales están
} sin despuntar; se corta cerca de { $share } del crecimiento del año pasado, para que cada fruta de la cosecha que sigue a la próxima tenga más hoja
finding-renewal-due = Árbol { $tree }: { $count ->
    [one] toca rebajar a tocón un vertical
   *[other] toca rebajar a tocón { $count } verticales
} de { $of }{ $stubs ->
    [0] {""}
    [one] {" "}además de un tocón
   *[other] {" "}además de { $stubs } tocones
}, primero { $first } ({ $why ->
    [age] { $age } temporadas de edad
    [size] { $diameter } de grosor
   *[length] el más largo
}{ $spares ->
    [yes] ; hay uno más grande junto a un hueco o un tocón
   *[no] {""}
}){ $late ->
    [yes] ; la madera más vieja no se puede mantener en { $limit } temporadas y llega a { $reachable } antes de que le toque, pues en un invierno se corta a lo más un tercio del árbol, redondeado hacia arriba
   *[no] { $raised ->
        [yes] { $over ->
            [yes] ; más que la parte, pues aquí ya hay madera de más de { $limit } temporadas
           *[no] ; más que la parte, repartido en los inviernos para que ninguna madera pase de { $limit } temporadas
        }
       *[no] {""}
    }
}{ $gone ->
    [0] {""}
    [one] . Uno que se quita este invierno cuenta en su parte
   *[other] . { $gone } que se quitan este invierno cuentan en su parte
}
renewal-age = de { $age ->
    [one] una temporada
   *[other] { $age } temporadas
}
renewal-goes-old = { $part }: { renewal-age }, { $over ->
    [yes] más del límite de { $limit }
   *[no] en el límite
}{ $among ->
    [thick] ; el más { $by ->
        [size] grueso
       *[length] largo
    } de su edad
    [crowds] ; de su edad el que está demasiado cerca de uno mejor
    [free] ; los más { $by ->
        [size] gruesos
       *[length] largos
    } de su edad tienen al lado un hueco o un tocón, también de este invierno
   *[none] {""}
}
renewal-goes-crowds = { $part }: { renewal-age }, y demasiado cerca de uno mejor
renewal-goes-thick = { $part }: { $by ->
    [size] de { $diameter } de grosor, el más grueso
   *[length] de { $length } de largo, el más largo
} de los que les toca; { renewal-age }
renewal-goes-turn = { $part }: { $by ->
    [size] de { $diameter } de grosor, el más grueso
   *[length] de { $length } de largo, el más largo
} de lo que no creció en esta vuelta de { $limit } inviernos; { renewal-age }
renewal-goes-free = { $part }: { $by ->
    [size] de { $diameter } de grosor, el más grueso
   *[length] de { $length } de largo, el más largo
} sin hueco ni otro tocón al lado; { renewal-age }
renewal-goes-in-time = { $part }: { renewal-age }, más viejo que lo más grueso; se corta ahora para que ninguna madera pase de { $limit } temporadas
renewal-goes-again = { $part }: { renewal-age }; creció en esta vuelta de { $limit } inviernos; se corta ahora para que ninguna madera pase de { $limit } temporadas
renewal-goes-share = { $part }: { renewal-age }, uno de la parte de este invierno
renewal-stays-short = Más viejo, y queda: { $part }, { renewal-age }, no es más largo que un tocón
renewal-stays-early = Más viejo, y queda: { $part }, { renewal-age }; antes de la hoja { $leaf } solo se corta lo grueso
renewal-stays-turn = Más viejo, y queda: { $part }, { renewal-age }; creció en esta vuelta de { $limit } inviernos
renewal-stays-beside = Más viejo, y queda: { $part }, { renewal-age }, tiene al lado un hueco o un tocón, también de este invierno
renewal-stays-crowds = Más viejo, y queda: { $part }, { renewal-age }; lo que se corta en su lugar está demasiado cerca de uno mejor
renewal-stays-thin = Más viejo, y queda: { $part }, { renewal-age }; es más { $by ->
    [size] delgado
   *[length] corto
}, y mientras ninguno que se pueda cortar llega a { $limit } temporadas, primero va el más { $by ->
    [size] grueso
   *[length] largo
}
renewal-stays-third = Más viejo, y queda: { $part }, { renewal-age }; con él se quitaría más de un tercio del árbol, redondeado hacia arriba
finding-wood-too-old = Árbol { $tree }: { $count ->
    [one] un vertical pasa
   *[other] { $count } verticales pasan
} de { $most } temporadas, el más viejo tiene { $age }{ $when ->
    [now] { $count ->
        [one] ; se va este invierno
       *[other] ; se van este invierno
    }
    [some] ; { $now ->
        [one] uno se va
       *[other] { $now } se van
    } este invierno, el resto en los siguientes, el último antes de la hoja { $until }
    [later] ; la renovación de este invierno está hecha, el resto sigue en los siguientes, el último antes de la hoja { $until }
   *[unknown] {""}
}
finding-returns-to-thin = { $count } rebrotes salen de { $part }; se deja uno: { $kept }
finding-see-through = Abertura de { $width } de ancho desde { $from } de la hilera, { $bands ->
    [low] en la parte baja del muro
    [middle] en la parte media del muro
    [high] en la parte alta del muro
    [low-middle] en las partes baja y media del muro
    [middle-high] en las partes media y alta del muro
    [low-high] en las partes baja y alta del muro
   *[all] de abajo a arriba
}; el límite es { $most }
finding-above-wall = Árbol { $tree }: { $count ->
    [one] un vertical pasa
   *[other] { $count } verticales pasan
} hasta { $above } de la altura del muro, { $height }{ $rest ->
    [0] {""}
    [one] ; cortado ahí { $count ->
        [one] perdería
       *[other] uno perdería
    } más de un tercio de su largo: espera a que se renueve
   *[other] ; cortados ahí { $rest } perderían más de un tercio de su largo: esperan a que se renueven
}
finding-wall-too-tall = El muro tiene { $height } de alto y las hileras están a { $spacing }{ $given ->
    [no] {" "}(supuesto, pues no se dio)
   *[yes] {""}
}: { $ratio } veces; hasta { $most } llega luz suficiente a su pie
finding-next-wire-due = Toca el alambre siguiente, a { $height }: { $count ->
    [one] un vertical pasa
   *[other] { $count } verticales pasan
} hasta { $above } del alambre más alto
finding-wires-too-far = Los alambres a { $low } y { $high } están a { $distance } uno de otro; { $most } como máximo mantienen derechos los verticales
finding-bare-wire = El alambre del cordón a { $height } es acero desnudo. La madera se roza en él y entra el cáncer bacteriano; el alambre plastificado o una funda bajan el riesgo, no lo quitan

remedy-keep-buds-along = Dejar { $buds ->
    [one] una yema
   *[other] { $buds } yemas
} a lo largo del cordón del árbol { $tree }; cada uno tiene entonces { $leaves }{ $notched }
remedy-notched = {" "}si todas brotan. Con entalladura en madera más vieja: { $count }, de las que brota cerca de { $share }
finding-notched = . Ahí con entalladura: { $count }, de las que brota cerca de { $share }
remedy-take-off-crowded = Quitar { $count ->
    [one] un vertical
   *[other] { $count } verticales
} del árbol { $tree }, donde más se estorban; cada uno de los demás tiene entonces { $leaves }
remedy-straighten = Amarrar derecho hacia arriba: { $part }
remedy-straighten-all = { $count ->
    [one] Amarrar derecho hacia arriba el que se inclina
   *[other] Amarrar derechos hacia arriba los { $count }
}
remedy-stub = { $count ->
    [one] Rebajar a tocón de { $keep }: { $part }
   *[other] Rebajar { $count } verticales del árbol { $tree } a tocón de { $keep }
}
remedy-stub-some = { $count ->
    [one] Rebajar este invierno a tocón de { $keep }: { $part }
   *[other] Rebajar este invierno { $count } verticales del árbol { $tree } a tocón de { $keep }
}; { $left ->
    [one] uno espera al siguiente
   *[other] { $left } esperan a los siguientes
}
remedy-thin = Dejar { $kept }, y quitar { $count ->
    [2] el otro
   *[other] los otros
} de { $part }
remedy-take-off-side = { $count ->
    [one] Quitar el brote de costado del árbol { $tree }
   *[other] Quitar los { $count } brotes de costado del árbol { $tree }
}
remedy-hold-height = Cortar { $rest ->
    [0] { $count ->
        [one] el vertical que pasa
       *[other] los { $count } verticales
    }
   *[other] { $count ->
        [one] un vertical
       *[other] { $count } verticales
    }
} del árbol { $tree } a { $height } del suelo
remedy-lower-wall = Dejar el muro en { $height } de alto{ $count ->
    [0] {""}
    [one] , y cortar ahí un vertical
   *[other] , y cortar ahí { $count } verticales
}

limit-gap_max_mm = Tramo desnudo más largo del cordón
limit-overlap_max_mm = Traslape más largo del cordón
limit-fill_due_leaf = Hoja a cuyo término el cordón debe estar lleno
limit-fill_due_share = Parte del cordón que cuenta como lleno
limit-upright_spacing_mm = Distancia entre verticales que se busca
limit-upright_spacing_min_mm = Distancia mínima entre verticales
limit-upright_spacing_max_mm = Distancia máxima entre verticales
limit-bearing_height_mm = Altura del tallo inclinado desde la que produce
limit-cordon_band_mm = Cuánto por encima del alambre la madera tumbada todavía cuenta como cordón
limit-bend_diameters = Radio de una curva, en grosores del tallo
limit-blind_base_mm = Base del crecimiento de una temporada que no da yema
limit-stub_length_mm = Largo de un tocón de renovación
limit-end_growth_mm = Crecimiento de la punta de una guía que se espera en una temporada
limit-see_through_ratio = Ancho de una abertura del muro, en espacios de verticales
limit-see_through_share = Parte de la altura del muro que puede estar abierta
limit-outside_max_mm = Cuánto puede pasar una punta de su propio cordón
limit-crossings_max = Vecinos que un vertical puede cruzar
limit-uneven_max = Dispersión de largo o grosor de los verticales de un árbol
limit-near_trunk_mm = Largo de cordón que cuenta como junto al tronco
limit-vigour_ratio = Grosor junto al tronco frente al usual del árbol
limit-laterals_leaf = Hoja desde la que se quitan los laterales
limit-laterals_max = Laterales en un árbol desde esa hoja, como máximo
limit-side_shoots_max = Yemas y brotes de costado y de abajo en un árbol, como máximo
limit-tipping_leaf = Hoja desde la que se despunta el crecimiento del año pasado
limit-tipping_share = Parte del crecimiento del año pasado que se lleva el despunte
limit-renewal_leaf = Hoja en la que empieza la renovación
limit-renewal_thick_mm = Grosor desde el que un vertical se renueva una hoja antes
limit-renewal_share = Parte de los verticales de un árbol rebajada a tocón cada año
limit-place_tolerance_mm = Medición: un lugar puede errar por
limit-length_tolerance_mm = Medición: un largo puede errar por
limit-thickness_tolerance_mm = Medición: un grosor puede errar por
limit-returns_max = Rebrotes que se dejan de un tocón
limit-wood_age_max = Vertical más viejo, en temporadas cumplidas
limit-bend_tightest_diameters = Curva más cerrada, en grosores del tallo
limit-bend_thick_mm = Grosor hasta el que todavía se dobla madera de dos temporadas; la más vieja no
limit-wire_spacing_mm = Distancia entre alambres que se busca
limit-wire_spacing_max_mm = Distancia máxima entre alambres
limit-free_end_max_mm = Cuánto pueden pasar los verticales del alambre más alto
limit-above_wall_max_mm = Cuánto pueden pasar los verticales de la altura del muro
limit-row_spacing_mm = Distancia entre hileras, si no se da ninguna
limit-height_ratio = Altura del muro entre distancia de hileras que se aconseja
limit-height_ratio_max = Altura del muro entre distancia de hileras, como máximo
limit-bare_wires_max = Alambres de acero desnudo, como máximo
limit-void_work_max = Labores sin efecto, como máximo

# Work of every kind, and why it may be refused.

work-plant = plantar, planta de { $length }
work-remove-tree = arrancar
work-replace-tree = reponer, planta de { $length }
work-cut-to-buds = rebajar a { $buds ->
    [one] una yema
   *[other] { $buds } yemas
}
work-thin = ralear los rebrotes a uno
work-rub-out = desyemar costados y abajo
work-move-bud = mover la yema a { $at } a lo largo
work-take-laterals = quitar laterales
work-tip = despuntar { $share } del crecimiento del año pasado
work-hold-height = mantener a { $height }
work-add-wire = tender un alambre a { $height }
work-move-wire = mover el alambre de { $height } a { $to }
work-remove-wire = quitar el alambre a { $height }
work-cover-wire = alambre a { $height }: { $covering ->
    [bare] dejarlo desnudo
   *[other] forrarlo de plástico
}

refusal-trees = Una hilera tiene { $high } árboles como máximo
refusal-tree-lost = El árbol { $tree } no está; elegir uno que esté en pie
refusal-tree-stands = El árbol { $tree } está en pie; elegir un lugar libre
refusal-plant-place = Árbol { $tree }: se debe plantar entre { $low } y { $high } de la hilera, no en { $value }
refusal-stock-length = Árbol { $tree }: la planta debe medir entre { $low } y { $high } de largo, no { $value }
refusal-stock-diameter = Árbol { $tree }: la planta debe medir entre { $low } y { $high } de grosor, no { $value }
refusal-planting-angle = Árbol { $tree }: el ángulo de plantación debe estar entre { $low } y { $high }, no { $value }
refusal-buds = { $part }: las yemas deben estar entre { $low } y { $high }, no { $value }
refusal-tip = { $part }: el despunte debe estar entre { $low } y { $high } del crecimiento del año pasado, no { $value }
refusal-tip-none = { $part }: no hay crecimiento del año pasado que despuntar
refusal-tip-stub = { $part }: un tocón no tiene punta
refusal-tip-done = { $part }: ya se quitó tanto del crecimiento del año pasado
refusal-height = { $part }: la altura debe ser { $low } o más, y menos que sus { $high }, no { $value }
refusal-thin = { $part }: debe ser un tocón con dos rebrotes o más, uno de ellos para dejar
refusal-rub-out = { $part }: debe ser madera tumbada, o un tallo que todavía se va a tumbar, con sus yemas de costado y de abajo todavía ahí
refusal-no-laterals = { $part }: no tiene laterales
refusal-notch = { $part }: una entalladura va en madera tumbada de dos temporadas o más; la más joven tiene su yema
refusal-move-bud = { $part }: solo se puede mover una yema dejada que no ha crecido
refusal-no-wire = No hay alambre a { $height }
refusal-wires = Una estructura tiene { $high } alambres como máximo
refusal-cordon-wire = El alambre del cordón a { $height } sigue siendo el más bajo, y no se puede quitar
refusal-wire-height = Un alambre debe estar entre { $low } y { $high } de alto, no { $value }
refusal-wire-near = Un alambre a { $value } debe estar a { $low } o más del alambre a { $near }

finding-rub-out-due = Árbol { $tree }: con la yema hinchada toca desyemar costados y abajo, en { $count ->
    [one] su guía
   *[other] sus { $count } guías
}

remedy-take-laterals = { $count ->
    [one] Quitar el lateral del árbol { $tree }
   *[other] Quitar los { $count } laterales del árbol { $tree }
}
remedy-tip = { $count ->
    [one] Despuntar el vertical del árbol { $tree }, { $share } del crecimiento del año pasado
   *[other] Despuntar los { $count } verticales del árbol { $tree }, { $share } del crecimiento del año pasado
}
remedy-add-wires = { $count ->
    [one] Tender un alambre a { $height }
   *[other] Tender { $count } alambres, el más bajo a { $height }
}
remedy-cover-wire = Forrar de plástico el alambre a { $height }
remedy-cut-to-buds = { $count ->
    [one] Rebajar el vertical disparejo del árbol { $tree } a { $buds } yemas antes de que crezca la hoja 2: da entonces { $buds } brotes parejos
   *[other] Rebajar los { $count } verticales disparejos del árbol { $tree } a { $buds } yemas antes de que crezca la hoja 2: cada uno da entonces { $buds } brotes parejos
}
remedy-rub-out = Desyemar los costados y la parte de abajo del árbol { $tree }
remedy-replant = Plantar planta nueva de { $length } como árbol { $tree } y tumbarla. { $outcome ->
    [closed] Cierra el tramo desnudo
   *[left] Quedan { $leaves } desnudos
}

# What a remedy does besides.

also-cuts-back = además rebaja a { $keep }
also-ends-leader = además rebaja su guía hasta donde nace
also-bares = { $length } quedan desnudos
also-doubles = { $length } pasan a traslaparse
also-takes = { $count ->
    [one] además quita un vertical o yema
   *[other] además quita { $count } verticales o yemas
}

limit-rub_out_leaf = Hoja hasta la que se desyeman costados y abajo

# Rows that are made, not measured.

made-trees = Número de árboles
made-leaf = Hoja que viene
made-spacing = Distancia entre árboles
made-angle = Ángulo de plantación desde el suelo
made-wires = Alturas de los alambres, primero el del cordón
made-wall-height = Altura del muro
made-upright-spacing = Distancia entre verticales
made-row-spacing = Distancia entre hileras
made-unevenness = El espacio varía
made-seed = El azar empieza en
made-length = Largo de la hilera
made-name = Hilera hecha, en la hoja { $leaf }
made-note = Hecha con unos pocos datos, no medida (azar desde { $seed })
empty-name = Hilera nueva

refusal-made = { $field ->
    [trees] {made-trees}
    [leaf] {made-leaf}
    [spacing] {made-spacing}
    [angle] {made-angle}
    [wires] {made-wires}
    [wall-height] {made-wall-height}
    [upright-spacing] {made-upright-spacing}
    [row-spacing] {made-row-spacing}
    [unevenness] {made-unevenness}
    [seed] {made-seed}
   *[length] {made-length}
}: debe estar entre { $low } y { $high }, no { $value }
refusal-made-cordon = El alambre del cordón debe estar entre { $low } y { $high } de alto, no { $value }

# A row taken down on a walk along it.

walk-name = Hilera recorrida
walk-note = Tomada en una caminata por la hilera: { $trees ->
    [one] un árbol
   *[other] { $trees } árboles
}. { $heights ->
    [yes] Los verticales tienen el largo que dicen sus alturas medidas, los que no la tienen el que dice su grosor
   *[no] No se midió el largo de los verticales; se calcula por su grosor
}, y un grosor sin medir se toma como usual
walk-note-sample = Una muestra: se midieron { $count } de { $trees } árboles ({ $numbers }), los demás se llenan con el más cercano de ellos. { $heights ->
    [yes] Los verticales tienen el largo que dicen sus alturas medidas, los que no la tienen el que dice su grosor
   *[no] No se midió el largo de los verticales; se calcula por su grosor
}, y un grosor sin medir se toma como usual
walk-sampled = en la muestra
walk-filled = llenado con el árbol { $tree }
walk-same = dicho igual al árbol { $tree }

refusal-walk = { $what ->
    [foot] El lugar del árbol { $tree }
    [end] El fin de la guía del árbol { $tree }
    [leader] El grosor de la guía del árbol { $tree }
    [upright] El lugar del vertical { $number } del árbol { $tree }
    [height] La altura del vertical { $number } del árbol { $tree }
    [laterals] Ramas laterales del vertical { $number } del árbol { $tree }: un número entero que
   *[thickness] El grosor del vertical { $number } del árbol { $tree }
} debe estar entre { $low } y { $high }, no { $value }
refusal-walk-near = Árbol { $tree }: ya hay un vertical en { $near }, demasiado cerca de { $value }
refusal-walk-not-asked = Eso no se pregunta ahora
refusal-walk-no-like = Todavía no hay árbol al que este pueda ser igual
refusal-walk-none = Todavía no hay árbol en pie; debe haber uno al menos
walk-so-foot = Árbol { $tree }, en { $place }
walk-so-missing = Árbol { $tree }, en { $place }: falta
walk-so-leader = Guía a la { $toward ->
    [left] izquierda
   *[right] derecha
}, termina en { $place }{ $thick ->
    [none] {""}
   *[other] , { $thick } de grosor
}
walk-so-uprights = { $count ->
    [one] Vertical en { $places }
   *[other] { $count } verticales en { $places }
}
walk-so-heights = Alturas: { $list }
walk-so-laterals = Ramas laterales: { $list }
refusal-tree-place = Un árbol debe estar entre { $low } y { $high }, no en { $value }
refusal-tree-near = Un árbol en { $value } debe estar a { $low } o más del árbol { $tree } en { $near }
# The record: what was measured, and why a correction may be refused.

measure-length = largo
measure-seasons = temporadas de crecimiento
measure-diameter = grosor
measure-place = lugar en la cinta
measure-at = lugar a lo largo de su madre
measure-season = hoja en que creció
measure-rise = subida
measure-lean = inclinación
measure-laterals = laterales
measure-laterals-length = largo de los laterales en total
measure-foot = lugar del pie
measure-planting-angle = ángulo de plantación
measure-planting-side = plantado hacia
measure-pose = se mantiene
measure-face = sale de
measure-side-buds = yemas de costado y de abajo
measure-note = nota
measure-stem = tallo
measure-leaf = hoja que viene
measure-row-from = comienzo de la hilera
measure-row-to = fin de la hilera
measure-post = lugar del poste
measure-post-count = número de postes
measure-wire = altura del alambre
measure-wire-count = número de alambres
measure-wall-height = altura del muro
setting-latitude = latitud
setting-longitude = longitud
setting-row-bearing = rumbo de la hilera en la brújula
setting-row-spacing = distancia entre hileras
setting-post-spacing = distancia entre postes

record-left = la izquierda
record-right = la derecha
record-laid-left = tumbado a la izquierda
record-laid-right = tumbado a la derecha
record-upright = parado
record-free = como creció
record-stub = a tocón
record-top = arriba
record-side = el costado
record-under = abajo
record-buds-left = todavía ahí
record-buds-rubbed = quitadas

refusal-correct-part = { $part }: { $what } debe estar entre { $low } y { $high }, no { $value }
refusal-correct-tree = Árbol { $tree }: { $what } debe estar entre { $low } y { $high }, no { $value }
refusal-correct-leaf = La hoja que viene debe estar entre { $low } y { $high }, no { $value }: { $part } { $why ->
    [grown] creció
   *[cut] se cortó
} en la hoja { $leaf }
refusal-correct-row = { $what }: debe estar entre { $low } y { $high }, no { $value }
refusal-whole = { $what }: debe ser un número entero entre { $low } y { $high }, no { $value }
refusal-correct-shorter = { $part }: el largo debe estar entre { $low } y { $high }, no { $value }, pues de ahí sale { $child }
refusal-not-recorded = Árbol { $tree }: el brote no está en el registro; elegir uno que esté
refusal-no-tape = { $part } no sale de madera tumbada: su lugar se dice a lo largo de su madre
refusal-stem-record = { $part }: el tallo sigue en el registro mientras esté su árbol; marcar el árbol como perdido, o quitarlo del registro
refusal-bud-record = { $part }: una yema no tiene grosor, temporada ni pose; escribir primero su largo

refusal-upright-off-wood = Ahí no hay madera tumbada: un vertical se registra en un cordón tumbado
refusal-while-correcting = Se está corrigiendo el registro, y eso no es labor; terminar eso primero
# Matters: findings of one cause together

matter-places = { $count ->
    [one] un lugar
   *[other] { $count } lugares
}
matter-trees = { $trees ->
    [one] el árbol { $tree }
   *[other] { $trees } árboles
}
matter-uprights = { $uprights ->
    [one] un vertical
   *[other] { $uprights } verticales
}
matter-tree-lost = { $trees ->
    [one] El árbol { $tree } está perdido
   *[other] { $trees } árboles están perdidos desde el árbol { $tree }
}{ $bare ->
    [yes] : ahí hay { $length } de cordón desnudos
   *[no] : su lugar está abierto
}
matter-filled-in = { $trees ->
    [one] El árbol { $tree } se llenó
   *[other] { $trees } árboles se llenaron
} con una muestra, nadie los midió: { $count ->
    [one] de los muestreados sale un hallazgo ahí
   *[other] de los muestreados salen { $count } hallazgos ahí
}
matter-leans-opposed = { $count ->
    [one] Dos árboles se inclinan
   *[other] { $count } pares de árboles se inclinan
} en sentido contrario: entre ellos quedan { $length } de cordón desnudos
matter-cordon-gap = { $note ->
    [yes] Hay { $length } de cordón desnudos en { matter-places }, cada uno corto para un vertical
   *[no] Cerrar { $length } de cordón desnudo en { matter-places }
}
matter-cordon-overlap = Quitar { $length } de traslape del cordón en { matter-places }
matter-crowded = { $note ->
    [yes] Hay tocones cerca de verticales en { matter-places }, en { matter-trees }
   *[no] Ralear los verticales demasiado juntos en { matter-places }, en { matter-trees }
}
matter-sparse = { $note ->
    [yes] Hay espacios anchos que esperan yemas entalladas en { matter-places }, en { matter-trees }
   *[no] Llenar los espacios anchos en { matter-places }, en { matter-trees }{ $uprights ->
        [0] {""}
        [one] ; cabe un vertical más
       *[other] ; caben unos { $uprights } verticales más
    }
}
matter-renewal = Renovar { matter-uprights } en { matter-trees }
matter-see-through = Se ve a través del muro en { matter-places }
matter-light-gap = Cae luz a través del muro en { matter-places }: en una temporada, tanta como captarían { $light } de este muro
matter-uneven = Verticales de una misma edad desparejos en { matter-trees }
matter-stock-short = Planta corta para su lugar en { matter-trees }
matter-bends = Madera con curva demasiado cerrada en { matter-places }
matter-over-vigorous = Demasiado vigor junto al tronco: { matter-uprights } en { matter-trees }
matter-outside = Punta más allá de su propio cordón: { matter-uprights } en { matter-trees }
matter-crossing = Enderezar { matter-uprights }: se cruzan con un vecino
matter-side-shoots = Quitar yemas y brotes que quedan en los costados y abajo, en { matter-trees }
matter-rub-out = Desyemar costados y abajo con la yema hinchada en { matter-trees }
matter-laterals = Quitar laterales en { matter-trees }
matter-tipping = Despuntar { matter-uprights } en { matter-trees }
matter-returns = Ralear los rebrotes de los tocones en { matter-places }, en { matter-trees }
matter-above-wall = Verticales por encima de la altura del muro en { matter-trees }
matter-wires-far = Alambres demasiado separados en { matter-places }
matter-dark = La zona de renovación es demasiado oscura en { matter-places } de la hilera
matter-work-void = { $count ->
    [one] Una labor planeada no hace
   *[other] { $count } labores planeadas no hacen
} nada
# Lo encontrado, donde un asunto se dice como labor: un informe dice lo que hay
found-cordon-gap = { $note ->
    [yes] { matter-cordon-gap }
   *[no] Hay { $length } de cordón desnudo en { matter-places }
}
found-cordon-overlap = Los cordones se traslapan { $length } en { matter-places }
found-crowded = { $note ->
    [yes] { matter-crowded }
   *[no] Hay verticales demasiado juntos en { matter-places }, en { matter-trees }
}
found-sparse = { $note ->
    [yes] { matter-sparse }
   *[no] Hay verticales demasiado separados en { matter-places }, en { matter-trees }
}
found-renewal = Por renovar: { matter-uprights } en { matter-trees }
found-crossing = Se cruzan con un vecino: { matter-uprights }
found-side-shoots = Quedan yemas y brotes en los costados y abajo, en { matter-trees }
found-rub-out = Van a hincharse yemas de los costados y de abajo, en { matter-trees }
found-laterals = Hay verticales con laterales en { matter-trees }
found-tipping = Sin despuntar el crecimiento del año pasado: { matter-uprights } en { matter-trees }
found-returns = Los rebrotes de los tocones se aprietan en { matter-places }, en { matter-trees }


# Light

finding-light-gap = Hueco de luz { $rank } desde { $from } de la hilera, { $width } de ancho, de { $low } a { $high } de alto: lo que cae por él en una temporada lo captarían { $worth } de este muro; el límite es { $most }
finding-light-cost = ; cuesta la luz de la temporada de { $costs } de muro
finding-light-under-filled = El muro capta { $share } de lo que captaría lleno como es usual: { $caught } de la luz de la temporada en vez de { $filled }, con un índice de área foliar de { $index }{ $given ->
    [no] , hileras supuestas a { $spacing }
   *[yes] {""}
}; un muro adulto necesita { $asked } o más{ $grown ->
    [no] . La mitad de sus verticales apenas llega a { $top }
   *[yes] {""}
}
finding-light-under-target = El muro capta { $caught } de la luz de la temporada, con un índice de área foliar de { $index }{ $given ->
    [no] , hileras supuestas a { $spacing }
   *[yes] {""}
}; en muros de manzano adultos lo usual es { $asked } o más, este captaría { $filled } lleno como es usual
finding-renewal-zone-dark = Zona de renovación demasiado oscura de { $from } a { $to } de la hilera: a los primeros { $zone } sobre el cordón llega { $light } de la luz; los tocones necesitan { $least }

limit-wall_thickness_mm = Grosor del muro con hojas
limit-leaf_on_face = Área de hoja por metro cuadrado de la cara de un muro lleno en temporada, m² (cuatro quintos de ella cuentan antes del crecimiento de la temporada)
limit-light_fill_share = Parte de lo que captaría lleno que un muro adulto debe captar
limit-light_target_share = Parte de la luz de la temporada usual en muros de manzano adultos
limit-renewal_light_share = Luz mínima en la zona de renovación
limit-renewal_zone_mm = Altura de la zona de renovación sobre el cordón
limit-light_gap_max_mm = Luz que se pierde por una abertura, como largo de muro

# Why what was typed, or stands in a cell, is no length and no number.

number-none = falta el número
number-two = hay dos números sin unidad entre ellos en '{ $text }'
number-word = '{ $text }' es una palabra; se espera un número
number-unit = '{ $text }' no es unidad de largo (mm, cm, m, in, ft)
number-before = falta el número antes de '{ $text }'
number-bare = hay un número sin unidad al final de '{ $text }'
number-long = '{ $text }' pasa de 10 km
number-inches = '{ $text }' tiene un pie o más de pulgadas detrás de los pies; deben ser menos de 12 in
number-fraction = '{ $text }' no es una fracción: arriba y abajo de la raya van números enteros, como en 3/4
number-no = '{ $text }' no es un número
number-marks = '{ $text }' no es un número (escribir los miles sin signo)
number-thousands = '{ $text }' en milímetros puede ser miles o decimales; escribirlo sin el signo
number-laterals = '{ $text }' no es una cuenta como 5, o 5/1.20 m

# What the cells of a table may hold: its own words, which are no language's.

accepted-kinds = una de stem (tallo), leader (guía), upright (vertical), shoot (brote), bud (yema), stub (tocón), lost (perdido)
accepted-parents = una de stem, leader, leader 2, upright 3 o el número de un renglón de su árbol
accepted-ticks = una de yes (sí), no
accepted-when-cut = none, o una hoja y una época (dormant, bud swell, early summer, after harvest) por cada largo, como en none + 4 dormant
accepted-cut-length = none en una temporada sin largo
accepted-origins = una de kept bud, return, end growth, cut-back bud, wild bud, notch
accepted-poses = una de: ángulo en grados, laid, upright, free, stub o 'planted 45 laid 3'
accepted-season = un número entero: la hoja en que creció
accepted-whole = un número entero
accepted-length = un largo
accepted-lengths = un largo como 0.60 m, o uno por temporada, como en 0.60 + 0.45
accepted-thickness = un grosor como 14 mm, o none
accepted-radius = un radio como 300 mm, o vacío
accepted-laterals = una cuenta como 5, o una cuenta y un largo, como en 5/1.20 m
accepted-place-cell = un lugar como 2.40 m, o along 0.30 m
accepted-no-length = sin largo para lo que no ha crecido
accepted-sides = una de left (izquierda), right (derecha), top (arriba), side (costado), under (abajo)
accepted-place = un lugar de la hilera
accepted-pose-leader = una de laid, laid 3
accepted-pose-upright = upright, o una inclinación como -5
accepted-pose-stem = una de laid 3, upright -5, free, stub
accepted-pose-stub = stub
accepted-degrees = un número de grados
accepted-seasons-of-lengths = una de by season, in all
accepted-coverings = una de bare (desnudo), plastic (plástico)

# Rules that a plan file breaks.

rule-cordon-wire = una estructura tiene un alambre del cordón
rule-stem-parent = el tallo no sale de nada
rule-no-parent = un brote que no es el tallo tiene madre
rule-parent-before = una madre va antes de lo que sale de ella
rule-later-work = la versión 1 no conoce entalladuras
rule-later-word = la versión { $version } no conoce esto; una posterior sí
rule-stray = un brote en esta pose no lo lleva
rule-seen = lo visto es right, missed o wrong
rule-mark-ends = una flecha, una distancia y un tramo tienen dos extremos (to), una nota uno
rule-fingerprint = una copia enviada se nombra con dieciséis cifras hexadecimales
rule-laid-way = un brote tumbado va a la izquierda o a la derecha
rule-of-shoot = árbol { $tree }, brote { $shoot }: { $what }
rule-id-twice = su id está dos veces
rule-second-stem = un segundo tallo
rule-parent-missing = su madre no va antes que él
rule-off-parent = su base está fuera de su madre
rule-out-of-range = un largo, grosor o temporada está fuera de rango
