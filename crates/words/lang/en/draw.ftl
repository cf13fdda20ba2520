# What stands in the drawing itself. Values come with their units.

draw-wall-height = wall height { $height }
draw-tree-diseased = tree { $tree }, diseased
draw-tree-lost = tree { $tree }, lost
draw-bare = { $length } bare
draw-twice = { $length } overlap
draw-cordon = Cordon
draw-scale = scale 1 : { $ratio }, the bar is { $length }
draw-summary = Leaf { $leaf }: { $trees ->
    [one] { $trees } tree
   *[other] { $trees } trees
} on { $length } of cordon wire, { $filled } of it filled
draw-about = An elevation of the row, to scale. { $summary }.
draw-notes = Notes
draw-sign-cut = cut back
draw-sign-stub = stub
draw-sign-off = remove
draw-sign-bend = bend
draw-sign-bud = keep a bud
draw-sign-notch = notch above a bud
draw-sign-laterals = remove laterals
draw-sign-rub = rub buds out
draw-sign-diseased = tree marked as diseased
draw-sign-done = done in the row
draw-of-tree = { $part }, at { $x }
draw-printed = printed { $date }
draw-after-work = After the work of this time.
draw-page = Page { $page } of { $pages }
draw-true = printed at 100 %, this bar is { $length } long
draw-places = At { $places }{ $more ->
    [0] {""}
    [one] {" "}and one more
   *[other] {" "}and { $more } more
}
draw-on-trees = On trees { $trees }
colour-bark = bark
colour-light = light
colour-age = age of wood
colour-crop = crop
colour-told-light = Light along the shoot, % of that above the row
colour-told-age = Seasons that the shoot has grown
colour-told-crop = Fruit of the shoot at the next harvest, by the model
tone-to = { $from }–{ $to }
tone-from = { $from } or more
chart-leaf = Leaf
chart-fill = Cordon filled, %
chart-uprights = Uprights at harvest
chart-crop = Crop, t/ha
chart-no-crop = no crop
chart-low = Crop from, t/ha
chart-high = Crop to, t/ha
chart-leaf-fruit = Leaf a fruit, cm²
chart-fruit = Mass of a fruit, g
chart-index = Leaf area index, m² a m² of ground
chart-oldest = Oldest upright, years
chart-ages = Uprights by age in years, before the winter’s work
chart-age = Age { $age }
chart-caught = Light caught, % of a clear season’s
chart-zone = Light in the renewal zone, %
tip-curve = What tipping takes, by the length that comes off
tip-sites = sites of this growth
tip-crop = what the shoot bears
two-title = { $one } beside { $other }
two-key = Strokes across the wood: shoots that stand under one of the two alone.
two-about = ≈ is told too high: work is left undone, or wire is bare.

# Marks on the wall: their kinds, and each in a line.
mark-note = note
mark-arrow = arrow
mark-distance = distance
mark-stretch = stretch
mark-at = at { $at }
mark-from-to = from { $from } to { $to }
mark-line-note = { $where }: { $text }
mark-line-distance = { $where }: { $length }{ $says ->
    [yes] {", "}{ $text }
   *[no] {""}
 }
mark-line-stretch = { $where }{ $says ->
    [yes] : { $text }
   *[no] {""}
 }
mark-line-gone = { $line } (its place on the wood is not there any more)
