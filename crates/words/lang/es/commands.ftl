# What the command line says. The module of the page holds none of it.

command-derived = derivado
command-practice = práctica común, sin fuente
command-memory = de memoria
command-assumed = supuesto nuestro

command-no-language = no hay tal lengua; las que hay: { $codes }
command-cannot-open = no se puede abrir
command-cannot-read = no se puede leer
command-cannot-write = no se puede escribir
command-pipe = es una tubería; tiene que ser un archivo
command-endless = un archivo puede tener { $high } MB como máximo
command-read-only = no se permite escribir en él; dar permiso, o nombrar otro archivo
command-holds-work = ahí hay un plan con labores o marcas; --replace pone el nuevo en su lugar
command-would-replace = reemplazaría el archivo del que se hace
command-no-plans = no hay *.json en esta carpeta
command-folder-cannot-read = la carpeta { $folder } no se puede leer
command-standard-output = salida estándar: no se puede escribir: { $reason }
command-name-refused = { $what } debe tener un nombre que termine en { $ending }, no { $file }
command-a-plan = un plan
command-a-table = una tabla
command-a-code = un código
command-a-drawing = un dibujo
command-drawn = { $file } dibujado
command-written = { $file } escrito
command-is-there = ya existe; --replace pone el nuevo en su lugar
command-file-of-rows = un archivo de varias hileras
command-no-rows = no se pudo leer ninguna hilera: no se escribe nada
command-archived = { $count ->
    [one] una hilera
   *[other] { $count } hileras
} en { $file }
command-set-aside = hilera { $place }, «{ $row }»: { $why }; puesta aparte como { $file }
command-no-code = El enlace tiene { $value } caracteres; un código contiene { $high } como mucho

command-row = { $file }: { $name }, hoja { $leaf }: { $trees } árboles, { $uprights } verticales, cordón lleno al { $filled } %, { $bare } desnudos
command-now = ya
command-soon = luego
command-note = nota
command-left = dejado
command-each = { $count ->
    [one] Un hallazgo por sí solo:
   *[other] { $count } hallazgos uno por uno:
}
command-mend = remedio: { $remedy }

command-none-taken = no se pudo tomar ningún renglón
command-too-many-left-out = { $left } de { $all } renglones no se pudieron tomar, demasiados para ser descuidos: no se escribe nada; --anyway escribe un plan con los otros { $taken }
command-left-out = { $left } de { $all } renglones quedaron fuera, cada uno nombrado arriba
command-imported = { $file }: { $taken ->
    [one] un renglón tomado
   *[other] { $taken } renglones tomados
}, { $left } fuera; { $trees ->
    [one] un árbol
   *[other] { $trees } árboles
}, { $lost } perdidos
command-plan-note = Hilera medida, de { $file }: { $taken } renglones tomados.
command-tipped-unknown = no se sabe si el crecimiento del año pasado estaba despuntado: se toma como entero; --tipped lo dice
command-tipped-told = --tipped no cambia nada: la tabla dice lo que se cortó, o no hay crecimiento del año pasado
command-planted-refused = el ángulo de plantación debe estar entre 10 y 90 grados, no { $angle }
command-wire = alambre: { $reason }
command-wire-refused = el alambre del cordón debe estar entre { $low } y { $high } mm, no { $height }

command-period-backward = un periodo de { $from } a { $to } termina antes de empezar; su último día debe ser { $from } o posterior
command-period-long = un periodo debe ser de un año como máximo, no de { $from } a { $to }
command-day-refused = un día se escribe como 2026-07-01 o 07-01, no '{ $day }'
command-no-month = el mes de un día debe estar entre 01 y 12, no { $month } como en '{ $day }'
command-no-day = un día debe estar entre { $first } y { $last }, no '{ $day }'
command-light = { $file }: { $name }, hoja { $leaf }, { $from } a { $to }: { $caught } de la luz captada (directa { $beam }, del cielo { $sky }), { $filled } si estuviera lleno como es usual, índice de área foliar { $index }
command-light-zone = zona de renovación: { $mean } en promedio, { $least } como mínimo; { $under30 } del muro bajo 30 %, { $under50 } bajo 50 %
command-light-gap = hueco de { $x0 } a { $x1 } m, de { $z0 } a { $z1 } m de alto, pierde { $loss } % de la luz
command-light-around = con { $latitude }, { $bearing }, { $spacing }, { $weather ->
    [usual] cielo usual: { $share } de la luz viene de él (Page 1961, sol la mitad de las horas)
   *[clear] cielo despejado
}
command-light-latitude = latitud { $value }
command-light-bearing = rumbo de la hilera { $value }°
command-light-spacing = hileras a { $value } m
command-light-taken = { $what } (supuesto)

command-forecast = { $file }: { $name }, esquema { $scheme }, por un modelo calibrado
command-forecast-leaf = hoja { $leaf }: cordón lleno al { $filled }, { $uprights } verticales, { $bears ->
    [yes] producción { $crop } t/ha (percentiles 10 a 90: { $low } a { $high }), { $fruit } cm² de hoja por fruta
   *[no] sin producción
 }, índice de área foliar { $index }, madera más vieja antes de los cortes del invierno { $age ->
    [one] { $age } temporada
   *[other] { $age } temporadas
 }
command-forecast-share = { $of ->
    [0] sin renovar verticales
   *[other] renovando uno de cada { $of } verticales cada invierno
 }: producción { $crop } t/ha con los valores usuales en promedio desde la hoja 3, { $late } en las tres últimas hojas, madera más vieja entonces { $age }, { $uprights } verticales, { $stubs } tocones en total
command-forecast-doubt = desde la hoja { $leaf }: { $why }
command-forecast-young = la madera más vieja es de { $limit } como máximo en invierno desde la hoja { $from }
command-forecast-old = la madera más vieja pasa de { $limit } en invierno hasta la hoja { $last }
command-no-scheme = no hay esquema { $name }; los que hay: { $schemes }
command-one-plan = -o toma el consejo para un solo plan: nombrar un archivo

command-crew = { $file }: { $name }, esquema { $scheme }, hoja { $leaf }: { $passes ->
    [0] sin labores
    [one] una pasada
   *[other] { $passes } pasadas
}, { $pieces ->
    [one] una labor
   *[other] { $pieces } labores
}, unas { $hours } horas de una persona (los rendimientos son de memoria)
command-crew-usual = la hoja { $leaf } no tiene labores en este esquema: estas son las labores usuales de esa hoja
command-crew-pass = { $number }. { $job }, { $window ->
    [bud_swell] con la yema hinchada
    [early_summer] al inicio del verano
    [after_harvest] después de la cosecha
   *[dormant] en reposo
}: { $pieces ->
    [one] una labor
   *[other] { $pieces } labores
} en { $trees ->
    [0] la estructura
    [one] un árbol
   *[other] { $trees } árboles
}, { $people ->
    [one] una persona
   *[other] { $people } personas
}, { $minutes } min cada una{ $stands ->
    [yes] , por regla
   *[no] {""}
}
command-crew-tools = { $tools }{ $ties ->
    [0] {""}
    [one] ; una amarra, { $sleeves } fundas
   *[other] ; { $ties } amarras, { $sleeves } fundas
}
command-crew-tree = árbol { $tree }: { $count }
command-crew-void = no se puede hacer como está la hilera: { $work }
command-no-job = no hay labor { $name }; las que hay: { $names }
command-name-value = { $text } debe ser un nombre y un número, como stub=20

command-materials = { $file }: { $name }: { $trees } árboles que pedir ({ $places } lugares, { $spares } de reserva), de { $least } a { $most } sobre el suelo, sin rebajar y con las yemas intactas donde hay una sola guía
command-wire-need = alambre a { $height }, { $kind ->
    [plastic] plastificado
   *[bare] desnudo
}{ $new ->
    [yes] , por tender
   *[no] {""}
}: { $length }; carga { $crop } kg de fruta por metro: tensión { $tension } kN, flecha { $sag }
command-wire-all = { $bare } de alambre desnudo y { $plastic } de alambre plastificado en total (un rollo de 25 kg son { $coil } m de alambre desnudo de ese grosor); { $posts } postes, a { $span } como máximo{ $assumed ->
    [yes] {" "}(supuesto: la hilera no tiene)
   *[no] {""}
}; { $ties } amarras, { $sleeves } fundas
command-wire-load = { $t } t/ha son { $kg } kg por metro de hilera; si el alambre del cordón lo cargara todo: tensión { $tension } kN, flecha { $sag }. Tensar sin carga a { $setting } kN, nunca sobre 1,1; un alambre de 2,5 mm se corta desde { $breaking } kN. Madera y hojas no se cuentan.
command-leaf-takes = las labores de la hoja { $leaf } llevan { $trees ->
    [one] un árbol
   *[other] { $trees } árboles
}, { $wires ->
    [one] un alambre
   *[other] { $wires } alambres
}, { $ties } amarras, { $sleeves } fundas
command-placed = lugar del árbol { $tree }: { $is ->
    [yes] árbol recibido { $delivered }
   *[no] no queda ninguno
}{ $lacks ->
    [yes] , le faltan { $short }
   *[no] {""}
}{ $headed ->
    [yes] , rebajado aunque se necesita sin rebajar
   *[no] {""}
}
command-cost = lo que tiene precio cuesta { $cost } { $currency }
command-no-price = no hay precio { $name }; los que hay: { $names }
command-out-of-range = { $name } = { $value }: debe estar entre { $low } y { $high }
command-compare = { $file }: { $name }, hasta la hoja { $leaf }, por un modelo calibrado; horas por rendimientos de memoria
command-compare-scheme = { $scheme }: producción { $crop } t/ha en total, cordón lleno al { $filled } al final, madera más vieja { $age }; { $hours } horas, { $pieces } labores, { $cuts } cortes, { $wires } alambres, { $ties } amarras, { $sleeves } fundas
command-compare-two = -o pone dos esquemas lado a lado, no { $count }: nombrar dos con --schemes
command-one-row = -o escribe para una hilera: nombrar un archivo
command-sheets = las hojas
command-no-pdf = no se pudo hacer el PDF: { $reason }
command-one-language = un idioma a la vez: solo crew escribe en varios
command-a-report = un informe
command-report = { $file }: { $name }, hoja { $leaf }: { $matters ->
    [one] un asunto encontrado
   *[other] { $matters } asuntos encontrados
}, { $settled } resueltos por las labores; { $passes ->
    [0] ninguna labor
    [one] una pasada
   *[other] { $passes } pasadas
}, { $changes ->
    [one] un cambio
   *[other] { $changes } cambios
} por árbol
