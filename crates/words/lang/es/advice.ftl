# What advice says.

refusal-solve-number = Un largo o peso del consejo debe ser un número, y una distancia buscada más de 0, no { $value }
refusal-fill-no-way = La madera del árbol { $count }, contando desde la izquierda, no tiene hacia dónde tumbarse; darle al menos un lado
refusal-uprights-order = Los lugares de los verticales van de izquierda a derecha: { $from } está antes de { $to }
refusal-uprights-bare = No hay nada, ni se puede dejar yema, entre { $from } y { $to }; ahí hay que permitir lugares más cercanos o un hueco más largo

advice-usual = Árbol { $tree }: { $kind ->
    [rub_out] desyemar costados y abajo
    [keep_bud] { $count ->
        [one] dejar una yema
       *[other] dejar { $count } yemas
    }
    [notch] { $count ->
        [one] entallar sobre una yema
       *[other] entallar sobre { $count } yemas
    }
    [lay] { $count ->
        [one] tumbar la planta por el alambre
       *[other] tumbar las dos guías por el alambre
    }
    [cut_to_buds] { $count ->
        [one] rebajar el vertical a yemas
       *[other] rebajar { $count } verticales a yemas
    }
    [cut_back] rebajar la punta del cordón
    [thin] dejar un rebrote del tocón
    [remove] { $count ->
        [one] quitar un brote
       *[other] quitar { $count } brotes
    }
    [stub] { $count ->
        [one] rebajar un vertical a tocón
       *[other] rebajar { $count } verticales a tocón
    }
    [take_laterals] quitar los laterales
    [tip] despuntar el crecimiento del año pasado
    [hold_height] mantener la altura del muro
    [add_wire] tender el alambre siguiente
   *[other] la labor usual
}
advice-why-usual = { $kind ->
    [rub_out] Las yemas de los costados y de abajo dan brotes que se salen del muro plano; quitadas con la yema hinchada no cuestan un corte después (práctica común, sin fuente)
    [keep_bud] Una yema dejada en madera de la última temporada llena un lugar donde el muro tiene espacio para un vertical (práctica común, sin fuente)
    [notch] La madera más vieja da un vertical solo sobre una entalladura, y no siempre (de memoria)
    [lay] La planta se tumba al inicio del verano, mientras su madera todavía dobla (de memoria)
    [cut_to_buds] Pocos brotes desparejos rebajados a yemas reparten su vigor entre otros tantos parejos (práctica común, sin fuente)
    [cut_back] La madera que pasa del árbol siguiente cubre el alambre dos veces (práctica común, sin fuente)
    [thin] De varios rebrotes de un tocón se deja uno, para que el nudo cargue un solo vertical (de memoria)
    [remove] Lo que crece fuera del muro plano, o al lado de un vertical que se mantuvo a su altura, se quita (práctica común, sin fuente)
    [stub] Cada invierno se renueva una parte de los verticales, primero los más viejos y los más grandes (práctica común, sin fuente)
    [take_laterals] Desde la tercera hoja los verticales van sin laterales (práctica común, sin fuente)
    [tip] El despunte quita tantas flores a la cosecha que sigue a la próxima que hoja y fruta quedan en equilibrio (práctica común, sin fuente)
    [hold_height] Lo que sobresale de la altura del muro da sombra a las hileras vecinas (práctica común, sin fuente)
    [add_wire] El alambre siguiente se pone cuando los verticales lo alcanzan (práctica común, sin fuente)
   *[other] Es la labor usual de esta época (práctica común, sin fuente)
}

advice-row = { $file }: { $name }, hoja { $leaf }, { $window ->
    [bud_swell] con la yema hinchada
    [early_summer] al inicio del verano
    [after_harvest] después de la cosecha
   *[dormant] en reposo
}
advice-draft = { $pieces ->
    [0] Nada que proponer
    [one] Una labor: { advice-counts }
   *[other] { $pieces } labores: { advice-counts }
}
advice-counts = { $cuts ->
    [one] un corte
   *[other] { $cuts } cortes
}, los laterales de un vertical como uno, { $ties ->
    [one] un brote acostado o amarrado
   *[other] { $ties } brotes acostados o amarrados
}, { $buds ->
    [one] una yema
   *[other] { $buds } yemas
}, { $wires ->
    [one] un alambre
   *[other] { $wires } alambres
}, unos { $minutes } minutos para una persona (de memoria)
advice-gain = En cinco hojas, por un modelo calibrado: producción { $before } t/ha sin él, { $after } con él (una diferencia de { $low } a { $high }), en la próxima cosecha { $next } y { $nextwith }; cordón lleno entonces al { $was } sin él y al { $filled } con él, contando el crecimiento; madera más vieja en los inviernos hasta entonces { $age } con él
advice-tips = Despuntes para la cosecha de la hoja { $harvest }, la que sigue a la próxima: { $trees } árboles, { $before } cm² de hoja por fruta en promedio sin ellos, { $after } con ellos; se buscan 200 (publicado). { $hand ->
    [0] Ningún árbol necesita más que eso
    [one] A un árbol hay que ralearle además dardos o fruta a mano
   *[other] A { $hand } árboles hay que ralearles además dardos o fruta a mano
}
advice-tip = Árbol { $tree }: { $tips ->
    [no] sin despunte por la fruta, sin él tiene { $before } cm² de hoja por cada una
   *[yes] despuntar { $share } del crecimiento del año pasado, { $before } cm² por fruta sin eso, { $after } con eso
}{ $thin ->
    [yes] ; { $hand } de la fruta de esa cosecha hay que ralearlo además a mano
   *[no] {""}
}
advice-renewed = Renovación en { $winters } inviernos: madera más vieja al final { $simple } con la regla simple, { $seen } mirando la hilera entera; producción de cinco hojas { $before } t/ha con la regla, { $after } así (una diferencia de { $low } a { $high }, por un modelo calibrado)
advice-winter = Antes de la hoja { $leaf }: { $count ->
    [one] un tocón
   *[other] { $count } tocones
}; producción de esa hoja { $rule } t/ha con la regla simple, { $crop } así
