# What the core says of rows, work and findings. Values come with their units.

name-tree = tree { $tree }
name-stem = stem, tree { $tree }
name-leader = { $of ->
    [1] leader, tree { $tree }
   *[other] leader { $number } of { $of }, tree { $tree }
}
name-upright = upright { $number } of { $of }, tree { $tree }
name-bud = bud { $number } of { $of }, tree { $tree }
name-stub = stub { $number } of { $of }, tree { $tree }
name-shoot = shoot { $number } of { $of }, tree { $tree }

refusal-limit = Limit { $limit }: { $value } is refused; { $low } to { $high } is accepted
refusal-scheme = Scheme { $value } is refused; 1 to { $high } is accepted
refusal-leaf = Work in leaf { $value } is refused; leaf { $low } to { $high } is accepted
refusal-no-tree = There is no tree { $tree } in this row
refusal-before-found = Tree { $tree }: work from before the row was found is refused; work from the found leaf on is accepted
refusal-no-shoot = Tree { $tree }: the shoot is not there at this time; a shoot that stands on the tree is accepted
refusal-rise = { $part }: a rise of { $value } is refused; { $low } to { $high } is accepted
refusal-lean = { $part }: a lean of { $value } is refused; { $low } to { $high } is accepted
refusal-stub-length = { $part }: a stub of { $value } is refused; { $low } to { $high } is accepted
refusal-cut-length = { $part }: { $value } kept is refused; { $low } to less than its { $high } is accepted
refusal-stem = { $part }: the stem can't be stubbed or taken off; any other shoot is accepted
refusal-bend-bud = { $part }: a bud can't be bent; a shoot that has grown is accepted
refusal-bud-not-laid = { $part }: a bud is kept on wood laid along the wire only
refusal-bud-place = { $part }: a bud at { $value } is refused; { $low } to { $high } along it is accepted
refusal-bud-near = { $part }: a bud at { $value } is refused; { $low } or more from the upright at { $near } is accepted
refusal-shoots = Tree { $tree }: one more shoot is refused; up to { $high } are accepted

# Files

refusal-file-size = The file of { $value } MB is refused; up to { $high } MB is accepted
refusal-file-text = Line { $line }: not UTF-8 text; save the file as UTF-8 and it is accepted
refusal-file-empty = The file is empty
refusal-file-format = The file is no plan: its format is { $value }; { $accepted } is accepted
refusal-file-too-new = The plan is of version { $value } and needs a newer program; this one reads versions 1 to { $high }
refusal-file-version = Version { $value } is refused; 1 to { $high } is accepted
refusal-file-cut = The file is cut: it ends at line { $line }, column { $column }, before the plan does
refusal-file-damaged = The file is damaged at line { $line }, column { $column }: { $reason }
refusal-file-content = Line { $line }, column { $column }: { $reason }
refusal-file-value = { $path }: { $value } is refused; { $low } to { $high } is accepted
refusal-file-long-text = { $path }: a text of { $value } characters is refused; up to { $high } are accepted
refusal-file-twice = { $path }: { $value } stands there twice; each is accepted once
refusal-file-rule = { $path }: { $rule }

refusal-csv-leaf = Leaf { $value } is refused; 1 to { $high } is accepted
refusal-csv-columns = Line { $line }: there is no column { $missing }; the columns there are: { $found }
refusal-csv-column-twice = The column { $column } stands twice; once is accepted
refusal-csv-lines = More than { $high } lines are refused
refusal-csv-bad-lines = { $value } lines can't be taken: this is no measured row. Up to { $high } bad lines are named and left out
refusal-csv-trees = { $value } trees are refused; up to { $high } in a row are accepted
refusal-csv-cells = { $value } cells for { $high } columns. Lengths with a decimal comma need a semicolon or tab between the cells
refusal-csv-quote = the quotation mark that opens here is never closed
refusal-csv-empty = { $column } is empty; { $accepted } is accepted
refusal-csv-word = { $column }: '{ $value }' is refused; accepted: { $accepted }
refusal-csv-cell = { $column }: { $reason }
refusal-csv-value = { $column }: { $value } is refused; { $low } to { $high } is accepted
refusal-csv-no-tree = tree { $tree } has no stem or leader line that could be taken, so that nothing can grow from it
refusal-csv-lost = tree { $tree } is lost by another line
refusal-csv-second-stem = tree { $tree } has a stem already
refusal-csv-parent = its parent is not among the lines of tree { $tree } that could be taken
refusal-csv-pose = a { $kind } can't be held so
refusal-csv-leaders = tree { $tree }: one more laid shoot is refused; up to { $high } are accepted
refusal-csv-place = place: { $value } is off its parent; { $low } to { $high } is accepted
refusal-csv-steep = place: its parent goes straight up, where a place along the row says no height; 'along 0.30 m' from its base is accepted

file-said-unit = { $column }: numbers without a unit are taken as { $unit }
file-said-column = The column '{ $column }' is none that is known; it was left out
file-said-leaf = The row is taken as found before leaf { $leaf }
file-said-stretch = The cordon is to be filled from { $from } to { $to }
file-said-seasons = { $count ->
    [one] One shoot without a season is taken as grown last
   *[other] { $count } shoots without a season are taken as grown last
}
file-said-diameters = { $count ->
    [one] One diameter was not measured and is estimated from the length
   *[other] { $count } diameters were not measured and are estimated from the length
}
file-said-laid = { $count ->
    [one] One stem that reaches the wire is taken as laid along it; its pose may say free
   *[other] { $count } stems that reach the wire are taken as laid along it; their pose may say free
}
file-said-ends = { $count ->
    [one] One place just beyond its parent's end is taken to it
   *[other] { $count } places just beyond their parent's end are taken to it
}
