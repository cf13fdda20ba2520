# What stands in the drawing itself. Values come with their units.

draw-wall-height = wall height { $height }
draw-tree-lost = tree { $tree }, lost
draw-bare = { $length } bare
draw-twice = { $length } twice
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
draw-sign-off = take off
draw-sign-bend = bend
draw-sign-bud = keep a bud
draw-sign-notch = notch above a bud
draw-sign-laterals = take laterals off
draw-sign-rub = rub buds out
draw-page = Page { $page } of { $pages }
draw-true = printed at 100 %, this bar is { $length } long
draw-alike = { $count ->
    [one] and one more like it, at { $places }
   *[other] and { $count } more like it, at { $places }
}
