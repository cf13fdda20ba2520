# What stands in the drawing itself. Values come with their units.

draw-wall-height = altura del muro { $height }
draw-tree-diseased = árbol { $tree }, enfermo
draw-tree-lost = árbol { $tree }, perdido
draw-bare = { $length } desnudos
draw-twice = { $length } de traslape
draw-cordon = Cordón
draw-scale = escala 1 : { $ratio }, la barra es { $length }
draw-summary = Hoja { $leaf }: { $trees ->
    [one] { $trees } árbol
   *[other] { $trees } árboles
} en { $length } de alambre del cordón, lleno al { $filled }
draw-about = La hilera vista de frente, a escala. { $summary }.
draw-notes = Notas
draw-sign-cut = rebajar
draw-sign-stub = a tocón
draw-sign-off = quitar
draw-sign-bend = doblar
draw-sign-bud = dejar una yema
draw-sign-notch = entallar sobre una yema
draw-sign-laterals = quitar laterales
draw-sign-rub = desyemar
draw-sign-diseased = árbol marcado como enfermo
draw-sign-done = hecho en la hilera
draw-of-tree = { $part }, en { $x }
draw-printed = impreso el { $date }
draw-after-work = Después de las labores de esta época.
draw-page = Página { $page } de { $pages }
draw-true = impreso al 100 %, esta barra mide { $length }
draw-places = En { $places }{ $more ->
    [0] {""}
    [one] {" "}y uno más
   *[other] {" "}y { $more } más
}
draw-on-trees = En los árboles { $trees }
colour-bark = corteza
colour-light = luz
colour-age = edad
colour-crop = producción
colour-told-light = Luz a lo largo del brote, % de la que hay sobre la hilera
colour-told-age = Temporadas que el brote ha crecido
colour-told-crop = Fruta del brote en la próxima cosecha, por el modelo
tone-to = { $from }–{ $to }
tone-from = { $from } o más
chart-leaf = Hoja
chart-fill = Cordón lleno, %
chart-uprights = Verticales en la cosecha
chart-crop = Producción, t/ha
chart-no-crop = sin producción
chart-low = Producción desde, t/ha
chart-high = Producción hasta, t/ha
chart-leaf-fruit = Hoja por fruta, cm²
chart-fruit = Peso de la fruta, g
chart-index = Índice de área foliar, m² por m²
chart-oldest = Vertical más viejo, años
chart-ages = Verticales por edad en años, antes de las labores de invierno
chart-age = Edad { $age }
chart-caught = Luz captada, % de la de una temporada despejada
chart-zone = Luz en la zona de renovación, %
tip-curve = Lo que se lleva el despunte, según el largo que se corta
tip-sites = puntos de fruta de este crecimiento
tip-crop = lo que da el brote
two-title = { $one } junto a { $other }
two-key = Rayas a través de la madera: brotes que están solo en uno de los dos.
two-about = ≈ dice de más: queda trabajo sin hacer o alambre desnudo.

# Marcas en la pared: sus clases, y cada una en una línea.
mark-note = nota
mark-arrow = flecha
mark-distance = distancia
mark-stretch = tramo
mark-at = a { $at }
mark-from-to = de { $from } a { $to }
mark-line-note = { $where }: { $text }
mark-line-distance = { $where }: { $length }{ $says ->
    [yes] {", "}{ $text }
   *[no] {""}
 }
mark-line-stretch = { $where }{ $says ->
    [yes] : { $text }
   *[no] {""}
 }
mark-line-gone = { $line } (su lugar en la madera ya no está)
