# What the core says of rows, work and findings. Values come with their units.

name-tree = tree { $tree }
name-in-bay = { $part }, bay { $bay } tree { $place }
name-of-tree = { $part }, tree { $tree }
# Parts of a tree, counted from its trunk on; where its wood goes both ways, on each side by itself.
name-to = { $side ->
    [left] {" to the left"}
    [right] {" to the right"}
   *[none] {""}
}
name-stem = stem
name-leader = { $of ->
    [1] leader{ name-to }
   *[other] leader { $number } of { $of }{ name-to }
}
name-upright = upright { $number } of { $of }{ name-to }
name-stub = stub { $number } of { $of }{ name-to }
name-under = stub under upright { $on }{ name-to }
name-bud = bud { $number } of { $of }{ name-to }
name-end = { $of ->
    [1] end shoot{ name-to }
   *[other] end shoot { $number } of { $of }{ name-to }
}
name-side = side shoot { $number } of { $of }{ name-to }
name-on-upright = { $of ->
    [1] shoot on upright { $on }{ name-to }
   *[other] shoot { $number } of { $of } on upright { $on }{ name-to }
}
name-on-stub = { $of ->
    [1] shoot on stub { $on }{ name-to }
   *[other] shoot { $number } of { $of } on stub { $on }{ name-to }
}
name-shoot = shoot { $number } of { $of }{ name-to }

refusal-limit = Limit { $limit } must be between { $low } and { $high }, not { $value }
refusal-left-reason = Say in 1 to { $high } characters why it is left; this has { $value }
refusal-left-many = A plan leaves { $high } matters at most; take one back first
refusal-mark-text = A mark says something in { $low } to { $high } characters; this has { $value }
refusal-mark-ends = An arrow, a distance and a stretch have two ends, a note has one
refusal-mark-many = A plan holds { $high } marks at most; remove one first
refusal-no-mark = There is no mark { $value }; the last one is { $high }
refusal-field-many = A plan holds { $high } pieces left, looked at again or noted at most
refusal-field-text = This has { $value } characters; { $high } can be written
refusal-extra = Cuts that nobody asked for must be { $high } at most on a tree, not { $value }
refusal-count = { $what } must be between { $low } and { $high }, not { $value }
count-leaf = The leaf
count-trees = The trees counted
count-spurs = The spurs counted on a tree
count-buds = Fruit buds on a spur
count-dead = Dead buds on a spur
count-flowers = Flowers in a bud
refusal-scheme = The scheme must be between 1 and { $high }, not { $value }
refusal-schemes = A plan holds { $high } schemes at most
refusal-scheme-name = Each scheme must have a name, and one of its own, not “{ $name }”
refusal-scheme-last = The only scheme of a plan stays
refusal-leaf = Work must be in a leaf between { $low } and { $high }, not { $value }
refusal-no-tree = There is no tree { $tree } in this row
refusal-before-found-row = Work must be in the leaf in which the row was found, or later
refusal-before-found = Tree { $tree }: work must be in the leaf in which the row was found, or later
refusal-no-shoot = Tree { $tree }: the shoot is not there at this time; choose one that stands on the tree
refusal-rise = { $part }: the rise must be between { $low } and { $high }, not { $value }
refusal-lean = { $part }: the lean must be between { $low } and { $high }, not { $value }
refusal-stub-length = { $part }: a stub must be between { $low } and { $high } long, not { $value }
refusal-cut-length = { $part }: what is kept must be { $low } or more and less than its { $high }, not { $value }
refusal-stem = { $part }: the stem can't be stubbed or removed; any other shoot can
refusal-bend-bud = { $part }: a bud can't be bent; a shoot that has grown can
refusal-bud-not-laid = { $part }: a bud is kept on wood laid along the wire, or on a stem that is still to be laid
refusal-bud-place = { $part }: a bud must be between { $low } and { $high } along it, not at { $value }
refusal-bud-near = { $part }: a bud at { $value } must be { $low } or more from the upright at { $near }
refusal-shoots = Tree { $tree }: a tree has { $high } shoots at most

# Files

refusal-file-size = The file must have { $high } MB at most, not { $value }
refusal-file-text = Line { $line }: this is no text; save the file as text in UTF-8
refusal-file-kind = This is no { $wanted ->
    [table] table
   *[plan] plan
}: it is { $kind ->
    [workbook] a workbook or another packed file. Save the sheet as CSV
    [print] a printed document (PDF)
    [picture] a picture
    [drawing] a drawing (SVG)
    [page] a web page or another file in tags
    [list] a list in JSON
    [table] a table of a measured row. Import it first
   *[plan] a plan, or another file in JSON
}
refusal-file-empty = The file is empty
refusal-file-format = The file is no plan: its format must be { $accepted }, not { $value }
refusal-file-too-new = The plan is of version { $value } and needs a newer program; this one reads versions 1 to { $high }
refusal-file-version = The version must be between 1 and { $high }{ $text ->
    [yes] , without quotation marks
   *[no] {""}
}, not { $value }
refusal-file-cut = The file is cut: it ends at line { $line }, column { $column }, before the plan does
refusal-file-damaged = The file is damaged at line { $line }, column { $column }: { $reason }
refusal-file-content = Line { $line }, column { $column }: { $reason }
refusal-archive-one = This is one plan and no file of many rows: it is opened as a plan
refusal-archive-version = The file of many rows is of version { $value } and needs a newer program; this one reads version { $high }
refusal-archive-plans = A file of many rows must have { $high } rows at most, not { $value }
refusal-archive-empty = There are no rows in the file
json-whole = the file
json-type = { $path } must be { $accepted }, not { $value }
json-missing = { $path } must have { $name }; it is missing
json-twice = { $path }: { $name } stands there twice; it must stand once
json-unknown = { $path } can have no { $name }; it must be one of { $names }
json-word = { $path } must be one of { $names }, not '{ $value }'
json-other = { $path }: { $reason }
json-is-group = a group of names and values in braces
json-is-list = a list in square brackets
json-whole-between = a whole number between { $low } and { $high }
json-whole-from-0 = a whole number, 0 or more
json-number = a number
json-text = a text in quotation marks
json-truth = true or false
refusal-file-value = { $path } must be between { $low } and { $high }, not { $value }
refusal-file-whole = { $path } must be a whole number between { $low } and { $high }, not { $value }
refusal-file-long-text = { $path }: a text must have { $high } characters at most, not { $value }
refusal-file-twice = { $path }: { $value } stands there twice; each must stand once
refusal-file-rule = { $path }: { $rule }

refusal-csv-leaf = The leaf must be between 1 and { $high }, not { $value }
refusal-csv-columns = Line { $line }: there is no column { $missing }; the columns there are: { $found }
refusal-csv-column-twice = The column { $column } stands twice; it must stand once
refusal-csv-lines = There must be { $high } lines at most
refusal-csv-above = There must be { $high } lines above the names of the columns at most
refusal-csv-wide = Line { $line }: there must be { $high } cells at most
refusal-csv-long = { $column }: there must be { $high } characters at most, not { $value }
refusal-csv-terms = { $column }: there must be { $high } seasons at most, not { $value }
refusal-csv-bad-lines = { $value } lines can't be taken, line { $line } the first: { $reason }. Up to { $high } bad lines are named and left out
refusal-csv-trees = A row must have { $high } trees at most, not { $value }
refusal-csv-cells = { $value } cells for { $high } columns. Lengths with a decimal comma need a semicolon or tab between the cells
refusal-csv-quote = the quotation mark that opens here is never closed
refusal-csv-empty = { $column } is empty; it must be { $accepted }
refusal-csv-word = { $column } must be { $accepted }, not '{ $value }'
csv-of-tree = tree { $tree }: { $why }
refusal-csv-unread = { $column } must be { $accepted }: { $reason }
refusal-csv-posts = posts: { $reason }. A post has a cell of its own, or a comma and a space stand between two
refusal-csv-length = length must be more than 0, and { $high } at most, not { $value }
refusal-csv-first-twice = tree { $tree } has its first line already, line { $line }: this is the same tree again, or another tree's number is meant
refusal-csv-value = { $column } must be between { $low } and { $high }, not { $value }
refusal-csv-twice = { $what } stands twice; it must stand once
refusal-csv-no-tree = tree { $tree } has no stem or leader line that could be taken, so that nothing can grow from it
refusal-csv-line-twice = this line is the same as line { $line }; each shoot is told once
refusal-csv-lost = tree { $tree } is lost by line { $line }; a lost tree must have no other line
refusal-csv-second-stem = tree { $tree } has a stem already, line { $line }; it must have one
refusal-csv-parent = parent must be among the lines of tree { $tree } that could be taken; '{ $value }' is not
refusal-csv-pose = pose of kind { $kind } must be { $accepted }, not '{ $value }'
refusal-csv-bend = bend radius must be empty, not '{ $value }': this is neither laid nor an upright stem, and has no bend
refusal-csv-leaders = tree { $tree }: there must be { $high } laid shoots at most
refusal-csv-place = place must be between { $low } and { $high }: { $value } is { $side ->
    [before] before the beginning of its parent ({ $part }) at { $low }
   *[beyond] beyond the end of its parent ({ $part }) at { $high }
}
refusal-csv-along = place must be between along { $low } and along { $high }: along { $value } is { $side ->
    [before] before the base
   *[beyond] beyond the end
} of its parent ({ $part })
refusal-csv-season = season must be between 0 and { $high }, not { $value }: the row is taken as found before leaf { $leaf }
refusal-csv-steep = place must be a distance from the base of its parent, such as 'along 0.30 m', not '{ $value }': its parent goes straight up, where a place along the row says no height

measured-left-out = { $count ->
    [one] One line of the table was left out
   *[other] { $count } lines of the table were left out
}
measured-line = Line { $line }: { $why }
measured-more = { $count ->
    [one] One more line was left out
   *[other] { $count } more were left out
}

file-said-encoding = The file is not in UTF-8; it was read as { $encoding }
file-said-above = { $count ->
    [one] ‘{ $text }’, above the names of the columns, is taken as the row's name
   *[other] The first of { $count } lines above the names of the columns, ‘{ $text }’, is taken as the row's name; the others are passed over
}
file-said-unit-doubt = { $column }: the numbers are taken as { $unit }, but look like { $likely }. Are these { $likely }? Then write ‘{ $column } ({ $likely })’ above them
file-said-crowded = Trees stand { $spacing } apart; { $low } to { $high } is usual. Are their places in another unit? Then write it above them, as in ‘place (cm)’
file-said-passed = { $count ->
    [one] One line above the names of the columns is passed over
   *[other] { $count } lines above the names of the columns are passed over
}
file-said-unit = { $column }: numbers without a unit are taken as { $unit }
file-said-column = The column '{ $column }' is none that is known; it was left out
file-said-leaf = The row is taken as found before leaf { $leaf }
file-said-stretch = The cordon is to be filled from { $from } to { $to }
file-said-seasons = { $count ->
    [one] One shoot without a season is taken as grown last
   *[other] { $count } shoots without a season are taken as grown last
}
file-said-in-all = { $count ->
    [one] One single length is shared out over its seasons as shoots usually grow, all but the last tipped by a fifth; that is assumed
   *[other] { $count } single lengths are shared out over their seasons as shoots usually grow, all but the last tipped by a fifth; that is assumed
}
file-said-diameters = { $count ->
    [one] One diameter was not measured and is estimated from the length
   *[other] { $count } diameters were not measured and are estimated from the length
}
file-said-laid = { $count ->
    [one] One stem that reaches the wire is taken as laid along it; its pose may say free
   *[other] { $count } stems that reach the wire are taken as laid along it; their pose may say free
}
file-said-wires = No line says the wires: { $count } bare ones are taken, from { $low } to { $high } (‘wire,0.60 m,plastic’ says one)
file-said-uncovered = Wires of which nothing says what covers them are taken as bare
file-said-wall = No line says the wall's height: { $height } is taken
file-said-unlikely = Line { $line }: { $what }
file-said-meant = Line { $line }: { $column } is read as { $value }, as you said
file-said-unlikely-more = { $count ->
    [one] One more line is as unlikely
   *[other] { $count } more lines are as unlikely
}
file-said-end = place { $value } is { $off } { $side ->
    [before] before the beginning of its parent ({ $part }): it is taken there
   *[beyond] beyond the end of its parent ({ $part }): it is taken to the end
}
file-said-ends = Line { $line }: { $what }
file-said-ends-more = { $count ->
    [one] One more place just off its parent is taken to its end
   *[other] { $count } more places just off their parents are taken to their ends
}
work-lay = laid along the wire to the { $toward ->
    [left] left
   *[right] right
}, rising { $rise }
work-lay-level = laid flat along the wire to the { $toward ->
    [left] left
   *[right] right
}
work-stand = stood up, leaning { $lean }
work-cut = cut back to { $keep }
work-stub = stubbed to { $keep }
work-remove = removed
work-keep-bud = bud kept { $at } along
work-notch = notched above a bud { $at } along
finding-cordon-gap = { $where ->
    [between] Cordon bare for { $length } between trees { $left } and { $right }
    [within] Cordon bare for { $length } on tree { $left }
    [after] Cordon bare for { $length } after tree { $left }, to the end of the row
    [before] Cordon bare for { $length } before tree { $right }, at the start of the row
   *[alone] Cordon bare for { $length } from { $from } along the row
}{ $expected ->
    [0] {""}
   *[other] ; its end is expected there by the end of leaf { $expected }
}{ $passes ->
    [yes] ; wood passes above { $over } of it, risen up to { $high } over the wire: { $part }
   *[no] {""}
}
finding-cordon-overlap = { $where ->
    [between] Cordon overlaps for { $length }: trees { $left } and { $right } lie side by side
   *[within] Cordon overlaps for { $length } on tree { $left }
}
finding-cordon-fill-due = Cordon { $share } filled; { $asked } was due by the end of leaf { $due }. { $bare } is still bare
finding-uprights-too-close = { $distance } apart; at least { $least } is needed: { $left }, and { $right }{ $wide ->
    [yes] ; removing one would leave { $leaves }, too wide a space
   *[no] {""}
}
finding-uprights-too-far = { $bare ->
    [yes] { $distance } of cordon without an upright, besides what is bare; at most { $most }: from { $left } to { $right }
   *[no] { $distance } of cordon without an upright; at most { $most }: from { $left } to { $right }
}{ $notched }
finding-work-void = Planned work of leaf { $leaf } does nothing. { $why }

remedy-lower-leader = Lower to the wire: { $part }. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-lay-all = Lay all { $count } stems along the wire, each the way it was planted for. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-lay-leader = Lay along the wire: { $part }. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-fill-forward = Lay forward along the wire: { $part }. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-fill-backward = Lay backward along the wire: { $part }. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-fill-both = Lay from both sides: { $part }, and { $other }. { $outcome ->
    [closed] They close the bare stretch
   *[left] { $leaves } stays bare
}
remedy-end-leader = Cut back to { $keep }, where the other begins: { $part }. { $uprights ->
    [0] No upright is lost
    [one] One upright goes with it
   *[other] { $uprights } uprights go with it
}{ $outcome ->
    [closed] {""}
   *[left] ; { $leaves } still overlaps
}
remedy-stand-up = Stand up as an upright: { $part }. { $outcome ->
    [closed] Nothing overlaps any more
   *[left] { $leaves } still overlaps
}
remedy-take-off = { $where ->
    [between] Remove { $part }; its neighbours are then { $leaves } apart
   *[end] Remove { $part }
}
remedy-keep-buds-between = Keep { $buds ->
    [one] one bud
   *[other] { $buds } buds
} between { $left } and { $right }; the widest space is then { $leaves }{ $notched }
remedy-stub-each = Stub { $count ->
    [one] one upright, which opens its place
   *[other] { $count } uprights, one a tree, which opens their places
}: { $part }{ $count ->
    [one] {""}
   *[other] {" "}first
}
remedy-even-out = Remove { $part }, and keep a bud in the middle of its place; the wider space is then { $leaves }{ $notched }
remedy-stand-free = Stand up as an upright: { $part }. The widest space left is { $leaves }
remedy-keep-buds = { $buds ->
    [one] Keep one bud between { $left } and { $right }; the widest space is then { $leaves }
   *[other] Keep { $buds } buds between { $left } and { $right }; the widest space is then { $leaves }
}{ $notched }

finding-stock-too-short = Stock too short for its place, by { $short }: { $part }. It has { $length }, may grow { $growth } by the end of leaf { $due }, and needs { $needed }
finding-leans-opposed = Trees { $left } and { $right } lean away from each other: { $length } between them stays bare. Plant them in pairs, give them two leaders, or lay a shoot backward
finding-bend-too-tight = { $fold ->
    [yes] Folded at its base: { $part }. It is { $diameter } thick; wood that has stood is laid only up to { $most }
   *[no] Bent too tight: { $part }. Radius { $radius }; for its { $diameter } at least { $least } is safe
}
finding-uprights-too-few = Tree { $tree }: { $count ->
    [0] no upright
    [one] one upright, bud or stub
   *[other] { $count } uprights, buds and stubs
} on { $length } of cordon; at least { $asked } { $asked ->
    [one] is
   *[other] are
} needed{ $notched }
finding-uprights-too-many = Tree { $tree }: { $count } uprights, buds and stubs on { $length } of cordon; it has room for { $asked }
finding-uprights-uneven = Tree { $tree }: its { $count } uprights of one age are uneven in { $of ->
    [thickness] thickness
   *[length] length
}, by { $spread }; the limit is { $most }
finding-upright-over-vigorous = Over-vigorous near the trunk: { $part }. { $diameter } thick, { $ratio } times the { $median } that is usual on its tree{ $goes ->
    [yes] {""}
   *[no] ; it waits for its turn in the winters' renewal
}
finding-upright-outside = Tip { $beyond } beyond its own cordon: { $part }. The limit is { $most }
finding-uprights-crossing = { $count ->
    [one] Leans across its neighbour: { $part } crosses { $other }
   *[other] Leans across { $count } neighbours: { $part } crosses { $other } and more
}
finding-side-shoots = Tree { $tree }: { $count ->
    [one] one bud or shoot
   *[other] { $count } buds and shoots
} left on the sides or underneath the cordon
finding-laterals-due = Tree { $tree }: { $count ->
    [one] one lateral
   *[other] { $count } laterals
} on { $uprights ->
    [one] one upright
   *[other] { $uprights } uprights
}; from leaf { $due } on they are removed
finding-tipping-due = Tree { $tree }: { $count ->
    [one] one upright is
   *[other] { $count } uprights are
} not tipped; about { $share } of last year's growth is cut off, so that each fruit of the harvest after the coming one has more leaf
finding-renewal-due = Tree { $tree }: { $count ->
    [one] one upright
   *[other] { $count } uprights
} of { $of }{ $stubs ->
    [0] {""}
    [one] {" "}beside a stub
   *[other] {" "}beside { $stubs } stubs
} due to be stubbed, first { $first } ({ $why ->
    [age] { $age } seasons old
    [size] { $diameter } thick
   *[length] the longest
}{ $spares ->
    [yes] ; a larger one stands beside a gap or a stub
   *[no] {""}
}){ $late ->
    [yes] ; the oldest wood can't be held to { $limit } seasons and reaches { $reachable } before its turn comes, for at most a third of a tree, rounded up, is cut in one winter
   *[no] { $raised ->
        [yes] { $over ->
            [yes] ; more than the share, for wood here is over { $limit } seasons old already
           *[no] ; more than the share, spread over the winters so that no wood passes { $limit } seasons
        }
       *[no] {""}
    }
}{ $gone ->
    [0] {""}
    [one] . One that is taken off this winter counts in its share
   *[other] . { $gone } that are taken off this winter count in its share
}
renewal-age = { $age ->
    [one] one season
   *[other] { $age } seasons
} old
renewal-goes-old = { $part }: { renewal-age }, { $over ->
    [yes] past the limit of { $limit }
   *[no] at the limit
}{ $among ->
    [thick] ; { $by ->
        [size] the thickest
       *[length] the longest
    } of its age
    [crowds] ; of its age the one that is too close to a better one
    [free] ; { $by ->
        [size] thicker
       *[length] longer
    } ones of its age have a gap or a stub beside them, one of this winter too
   *[none] {""}
}
renewal-goes-crowds = { $part }: { renewal-age }, and too close to a better one
renewal-goes-thick = { $part }: { $by ->
    [size] { $diameter } thick, the thickest
   *[length] { $length } long, the longest
} whose turn it is; { renewal-age }
renewal-goes-turn = { $part }: { $by ->
    [size] { $diameter } thick, the thickest
   *[length] { $length } long, the longest
} of what has not grown within this turn of { $limit } winters; { renewal-age }
renewal-goes-free = { $part }: { $by ->
    [size] { $diameter } thick, the thickest
   *[length] { $length } long, the longest
} with no gap and no other stub beside it; { renewal-age }
renewal-goes-in-time = { $part }: { renewal-age }, older than what is thicker; it goes now so that no wood passes { $limit } seasons
renewal-goes-again = { $part }: { renewal-age }; grew within this turn of { $limit } winters; it goes now so that no wood passes { $limit } seasons
renewal-goes-share = { $part }: { renewal-age }, one of this winter’s share
renewal-stays-short = Older, and stays: { $part }, { renewal-age }, is no longer than a stub
renewal-stays-early = Older, and stays: { $part }, { renewal-age }; before leaf { $leaf } only what is thick goes
renewal-stays-turn = Older, and stays: { $part }, { renewal-age }; grew within this turn of { $limit } winters
renewal-stays-beside = Older, and stays: { $part }, { renewal-age }, has a gap or a stub beside it, one of this winter too
renewal-stays-crowds = Older, and stays: { $part }, { renewal-age }; what goes in its place is too close to a better one
renewal-stays-thin = Older, and stays: { $part }, { renewal-age }; it is { $by ->
    [size] thinner
   *[length] shorter
}, and while none that can go has reached { $limit } seasons the { $by ->
    [size] thickest
   *[length] longest
} goes first
renewal-stays-third = Older, and stays: { $part }, { renewal-age }; with it more than a third of the tree, rounded up, would come off
finding-wood-too-old = Tree { $tree }: { $count ->
    [one] one upright is
   *[other] { $count } uprights are
} over { $most } seasons old, the oldest { $age }{ $when ->
    [now] { $count ->
        [one] ; it goes this winter
       *[other] ; they go this winter
    }
    [some] ; { $now ->
        [one] one goes
       *[other] { $now } go
    } this winter, the rest over the coming ones, the last before leaf { $until }
    [later] ; this winter's renewal is done, the rest follows over the coming ones, the last before leaf { $until }
   *[unknown] {""}
}
finding-returns-to-thin = { $count } shoots return from { $part }; one is kept: { $kept }
finding-see-through = Opening { $width } wide from { $from } along the row, { $bands ->
    [low] in the low part of the wall
    [middle] in the middle of the wall
    [high] in the high part of the wall
    [low-middle] in the low and middle parts of the wall
    [middle-high] in the middle and high parts of the wall
    [low-high] in the low and high parts of the wall
   *[all] from low to high
}; the limit is { $most }
finding-above-wall = Tree { $tree }: { $count ->
    [one] one upright stands
   *[other] { $count } uprights stand
} up to { $above } above the wall's height of { $height }{ $rest ->
    [0] {""}
    [one] ; cut there { $count ->
        [one] it
       *[other] one
    } would lose more than a third of its length: it waits to be renewed
   *[other] ; cut there { $rest } would lose more than a third of their length: they wait to be renewed
}
finding-wall-too-tall = The wall is { $height } high and the rows are { $spacing } apart{ $given ->
    [no] {" "}(taken, since none is given)
   *[yes] {""}
}: { $ratio } times; up to { $most } lets enough light to its foot
finding-next-wire-due = The next wire is due, at { $height }: { $count ->
    [one] one upright stands
   *[other] { $count } uprights stand
} up to { $above } above the top wire
finding-wires-too-far = Wires at { $low } and { $high } are { $distance } apart; at most { $most } holds the uprights straight
finding-bare-wire = The cordon wire at { $height } is bare steel. Wood rubs on it and canker gets in; plastic wire or a slip-on tube lowers the risk, it does not remove it

remedy-keep-buds-along = Keep { $buds ->
    [one] one bud
   *[other] { $buds } buds
} along the cordon of tree { $tree }; each then has { $leaves }{ $notched }
remedy-notched = {" "}if all grow. By a notch in older wood: { $count }, of which about { $share } grow
finding-notched = . Notched there: { $count }, of which about { $share } grow
remedy-take-off-crowded = Remove { $count ->
    [one] one upright
   *[other] { $count } uprights
} from tree { $tree }, where they crowd most; each of the rest then has { $leaves }
remedy-straighten = Tie straight up: { $part }
remedy-straighten-all = { $count ->
    [one] Tie straight up the one that leans
   *[other] Tie all { $count } straight up
}
remedy-stub = { $count ->
    [one] Stub to { $keep }: { $part }
   *[other] Stub { $count } uprights of tree { $tree } to { $keep }
}
remedy-stub-some = { $count ->
    [one] Stub to { $keep } this winter: { $part }
   *[other] Stub { $count } uprights of tree { $tree } to { $keep } this winter
}; { $left ->
    [one] one waits for the next
   *[other] { $left } wait for the next ones
}
remedy-thin = Keep { $kept }, and remove the { $count ->
    [2] other
   *[other] others
} of { $part }
remedy-take-off-side = { $count ->
    [one] Remove the side shoot from tree { $tree }
   *[other] Remove all { $count } side shoots from tree { $tree }
}
remedy-hold-height = Cut { $rest ->
    [0] { $count ->
        [one] the upright
       *[other] all { $count } uprights
    }
   *[other] { $count ->
        [one] one upright
       *[other] { $count } uprights
    }
} of tree { $tree } at { $height } from the ground
remedy-lower-wall = Have the wall { $height } high{ $count ->
    [0] {""}
    [one] , and cut one upright there
   *[other] , and cut { $count } uprights there
}

limit-gap_max_mm = Longest bare stretch of cordon
limit-overlap_max_mm = Longest overlap of cordon
limit-fill_due_leaf = Leaf by whose end the cordon is to be filled
limit-fill_due_share = Share of the cordon that counts as filled
limit-upright_spacing_mm = Distance between uprights to aim at
limit-upright_spacing_min_mm = Least distance between uprights
limit-upright_spacing_max_mm = Largest distance between uprights
limit-bearing_height_mm = Height on the slanting stem from which it bears
limit-cordon_band_mm = How far above the wire laid wood still counts as cordon
limit-bend_diameters = Radius of a bend, in stem thicknesses
limit-blind_base_mm = Base of a season's growth that brings no bud
limit-stub_length_mm = Length of a renewal stub
limit-end_growth_mm = Growth of a leader's end expected in one season
limit-see_through_ratio = Width of an opening in the wall, in upright spaces
limit-see_through_share = Share of the wall's height that may be open
limit-outside_max_mm = How far a tip may stand beyond its own cordon
limit-crossings_max = Neighbours that an upright may cross
limit-uneven_max = Spread in length or thickness of a tree's uprights
limit-near_trunk_mm = Length of cordon that counts as near the trunk
limit-vigour_ratio = Thickness near the trunk over what is usual on the tree
limit-laterals_leaf = Leaf from which laterals come off
limit-laterals_max = Laterals on a tree from that leaf on, at most
limit-side_shoots_max = Side and underside buds and shoots on a tree, at most
limit-tipping_leaf = Leaf from which last year's growth is tipped
limit-tipping_share = Share of last year's growth that tipping takes
limit-renewal_leaf = Leaf in which renewal begins
limit-renewal_thick_mm = Thickness from which an upright is renewed a leaf earlier
limit-renewal_share = Share of a tree's uprights stubbed each year
limit-place_tolerance_mm = Measuring: a place may be off by
limit-length_tolerance_mm = Measuring: a length may be off by
limit-thickness_tolerance_mm = Measuring: a thickness may be off by
limit-returns_max = Shoots kept of those that return from a stub
limit-wood_age_max = Oldest upright, in completed seasons
limit-bend_tightest_diameters = Tightest bend, in stem thicknesses
limit-bend_thick_mm = Thickness up to which wood two seasons old is still bent; older wood is not
limit-wire_spacing_mm = Distance between wires to aim at
limit-wire_spacing_max_mm = Largest distance between wires
limit-free_end_max_mm = How far uprights may stand above the top wire
limit-above_wall_max_mm = How far uprights may stand above the wall's height
limit-row_spacing_mm = Distance between rows, where none is given
limit-height_ratio = Wall height over row distance that is advised
limit-height_ratio_max = Wall height over row distance, at most
limit-bare_wires_max = Bare steel wires, at most
limit-void_work_max = Pieces of work without effect, at most

# Work of every kind, and why it may be refused.

work-plant = planted, stock of { $length }
work-remove-tree = grubbed out
work-replace-tree = replaced, stock of { $length }
work-cut-to-buds = cut back to { $buds ->
    [one] one bud
   *[other] { $buds } buds
}
work-thin = returns thinned to one
work-rub-out = side and underside buds rubbed out
work-move-bud = bud moved to { $at } along
work-take-laterals = laterals removed
work-tip = tipped by { $share } of last year's growth
work-hold-height = held at { $height }
work-add-wire = wire stretched at { $height }
work-move-wire = wire moved from { $height } to { $to }
work-remove-wire = wire at { $height } taken down
work-cover-wire = wire at { $height } { $covering ->
    [bare] laid bare
   *[other] covered with plastic
}

refusal-trees = A row has { $high } trees at most
refusal-tree-lost = Tree { $tree } is not there; choose one that stands
refusal-tree-stands = Tree { $tree } stands; choose a free place
refusal-plant-place = Tree { $tree }: planting must be between { $low } and { $high } along the row, not at { $value }
refusal-stock-length = Tree { $tree }: stock must be between { $low } and { $high } long, not { $value }
refusal-stock-diameter = Tree { $tree }: stock must be between { $low } and { $high } thick, not { $value }
refusal-planting-angle = Tree { $tree }: the planting angle must be between { $low } and { $high }, not { $value }
refusal-buds = { $part }: buds must be between { $low } and { $high }, not { $value }
refusal-tip = { $part }: tipping must be between { $low } and { $high } of last year's growth, not { $value }
refusal-tip-none = { $part }: there is no growth of last year to tip
refusal-tip-stub = { $part }: a stub has no tip
refusal-tip-done = { $part }: as much of last year's growth is off already
refusal-height = { $part }: the height must be { $low } or more and less than its { $high }, not { $value }
refusal-thin = { $part }: it must be a stub with two returns or more, one of them to keep
refusal-rub-out = { $part }: it must be laid wood, or a stem still to be laid, whose side and underside buds are still there
refusal-no-laterals = { $part }: it has no laterals
refusal-notch = { $part }: a notch must be in laid wood of two seasons or older; younger wood has its bud
refusal-move-bud = { $part }: only a kept bud that has not grown can be moved
refusal-no-wire = There is no wire at { $height }
refusal-wires = A trellis has { $high } wires at most
refusal-cordon-wire = The cordon wire at { $height } stays the lowest, and can’t be taken down
refusal-wire-height = A wire must be between { $low } and { $high } high, not { $value }
refusal-wire-near = A wire at { $value } must be { $low } or more from the wire at { $near }

finding-rub-out-due = Tree { $tree }: side and underside buds are to be rubbed out at bud swell, on { $count ->
    [one] its leader
   *[other] its { $count } leaders
}

remedy-take-laterals = { $count ->
    [one] Remove the lateral from tree { $tree }
   *[other] Remove all { $count } laterals from tree { $tree }
}
remedy-tip = { $count ->
    [one] Tip the upright of tree { $tree } by { $share } of last year's growth
   *[other] Tip all { $count } uprights of tree { $tree } by { $share } of last year's growth
}
remedy-add-wires = { $count ->
    [one] Stretch a wire at { $height }
   *[other] Stretch { $count } wires, the lowest at { $height }
}
remedy-cover-wire = Cover the wire at { $height } with plastic
remedy-cut-to-buds = { $count ->
    [one] Cut the odd upright of tree { $tree } back to { $buds } buds before leaf 2 grows: it then brings { $buds } even shoots
   *[other] Cut the { $count } odd uprights of tree { $tree } back to { $buds } buds before leaf 2 grows: each then brings { $buds } even shoots
}
remedy-rub-out = Rub out the side and underside buds of tree { $tree }
remedy-replant = Plant new stock of { $length } as tree { $tree } and lay it. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}

# What a remedy does besides.

also-cuts-back = also cuts back to { $keep }
also-ends-leader = also cuts its leader back to where it begins
also-bares = { $length } is laid bare
also-doubles = { $length } comes to overlap
also-takes = { $count ->
    [one] also removes one upright or bud
   *[other] also removes { $count } uprights or buds
}

limit-rub_out_leaf = Leaf up to which side and underside buds are rubbed out

# Rows that are made, not measured.

made-trees = Number of trees
made-leaf = Coming leaf
made-spacing = Distance between trees
made-angle = Planting angle from the ground
made-wires = Heights of the wires, the cordon wire first
made-wall-height = Height of the wall
made-upright-spacing = Distance between uprights
made-row-spacing = Distance between rows
made-unevenness = Spacing varies by
made-seed = Chance begins from
made-length = Length of the row
made-name = A made row in leaf { $leaf }
made-note = Made from a few figures, not measured (chance from { $seed })
empty-name = New row

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
} must be between { $low } and { $high }, not { $value }
refusal-made-cordon = The cordon wire must be between { $low } and { $high } high, not { $value }

# A row taken down on a walk along it.

walk-name = Walked row
walk-note = Taken down on a walk along the row: { $trees ->
    [one] one tree
   *[other] { $trees } trees
}. { $heights ->
    [yes] Uprights are as long as their measured heights say, those without one as their thickness does
   *[no] Lengths of uprights were not measured; they are reckoned from their thickness
}, and an unmeasured thickness is taken as usual
walk-note-sample = A sample: { $count } of { $trees } trees were measured ({ $numbers }), the others are filled in from the nearest of them. { $heights ->
    [yes] Uprights are as long as their measured heights say, those without one as their thickness does
   *[no] Lengths of uprights were not measured; they are reckoned from their thickness
}, and an unmeasured thickness is taken as usual
walk-sampled = sampled
walk-filled = filled in from tree { $tree }
walk-same = said to be the same as tree { $tree }

refusal-walk = { $what ->
    [foot] Place of tree { $tree }
    [end] End of the leader of tree { $tree }
    [leader] Thickness of the leader of tree { $tree }
    [upright] Place of upright { $number } of tree { $tree }
    [height] Height of upright { $number } of tree { $tree }
    [laterals] Side branches of upright { $number } of tree { $tree }, a whole number,
   *[thickness] Thickness of upright { $number } of tree { $tree }
} must be between { $low } and { $high }, not { $value }
refusal-walk-near = Tree { $tree }: there is an upright at { $near } already, too near to { $value }
refusal-walk-not-asked = That is not asked now
refusal-walk-no-like = There is no tree yet that this one could be the same as
refusal-walk-none = No tree stands yet; there must be one at least
walk-so-foot = Tree { $tree }, at { $place }
walk-so-missing = Tree { $tree }, at { $place }: missing
walk-so-leader = Leader to the { $toward ->
    [left] left
   *[right] right
}, ends at { $place }{ $thick ->
    [none] {""}
   *[other] , { $thick } thick
}
walk-so-uprights = { $count ->
    [one] Upright at { $places }
   *[other] { $count } uprights at { $places }
}
walk-so-heights = Heights: { $list }
walk-so-laterals = Side branches: { $list }
refusal-tree-place = A tree must be between { $low } and { $high }, not at { $value }
refusal-tree-near = A tree at { $value } must be { $low } or more from tree { $tree } at { $near }
# The record: what was measured, and why a correction may be refused.

measure-length = length
measure-seasons = seasons of growth
measure-diameter = thickness
measure-place = place on the tape
measure-at = place along its parent
measure-season = leaf in which it grew
measure-rise = rise
measure-lean = lean
measure-laterals = laterals
measure-laterals-length = length of laterals together
measure-foot = place of the foot
measure-planting-angle = planting angle
measure-planting-side = planted toward
measure-pose = held
measure-face = grows from
measure-side-buds = side and underside buds
measure-note = note
measure-stem = stem
measure-leaf = coming leaf
measure-row-from = start of the row
measure-row-to = end of the row
measure-post = post's place
measure-post-count = number of posts
measure-wire = wire's height
measure-wire-count = number of wires
measure-wall-height = wall height
setting-latitude = latitude
setting-longitude = longitude
setting-row-bearing = compass bearing of the row
setting-row-spacing = distance between rows
setting-post-spacing = distance between posts

record-left = the left
record-right = the right
record-laid-left = laid to the left
record-laid-right = laid to the right
record-upright = standing
record-free = as it grew
record-stub = stubbed
record-top = the top
record-side = the side
record-under = underneath
record-buds-left = still there
record-buds-rubbed = rubbed out

refusal-correct-part = { $part }: { $what } must be between { $low } and { $high }, not { $value }
refusal-correct-tree = Tree { $tree }: { $what } must be between { $low } and { $high }, not { $value }
refusal-correct-leaf = The coming leaf must be between { $low } and { $high }, not { $value }: { $part } { $why ->
    [grown] grew
   *[cut] was cut
} in leaf { $leaf }
refusal-correct-row = { $what } must be between { $low } and { $high }, not { $value }
refusal-whole = { $what } must be a whole number between { $low } and { $high }, not { $value }
refusal-correct-shorter = { $part }: length must be between { $low } and { $high }, not { $value }, for { $child }, grows from it
refusal-not-recorded = Tree { $tree }: the shoot is not in the record; choose one that is
refusal-no-tape = { $part } doesn't grow from laid wood: its place is told along its parent
refusal-stem-record = { $part }: the stem stays in the record as long as its tree does; mark the tree as lost, or remove it from the record
refusal-bud-record = { $part }: a bud has no thickness, season or pose; enter its length first

refusal-upright-off-wood = No wood lies there: an upright is recorded on a laid cordon
refusal-while-correcting = The record is being corrected, which is no work; end that first
# Matters: findings of one cause together

matter-places = { $count ->
    [one] one place
   *[other] { $count } places
}
matter-trees = { $trees ->
    [one] tree { $tree }
   *[other] { $trees } trees
}
matter-uprights = { $uprights ->
    [one] one upright
   *[other] { $uprights } uprights
}
matter-tree-lost = { $trees ->
    [one] Tree { $tree } is lost
   *[other] { $trees } trees from tree { $tree } on are lost
}{ $bare ->
    [yes] : { $length } of cordon is bare there
   *[no] : its place stands open
}
matter-filled-in = { $trees ->
    [one] Tree { $tree } is
   *[other] { $trees } trees are
} filled in from a sample, nobody has measured them: { $count ->
    [one] one finding there follows
   *[other] { $count } findings there follow
} from the sampled ones
matter-leans-opposed = { $count ->
    [one] Two trees lean
   *[other] { $count } pairs of trees lean
} away from each other: { $length } of cordon between them stays bare
matter-cordon-gap = { $note ->
    [yes] { $length } of cordon is bare in { matter-places }, each too short for an upright
   *[no] Close { $length } of bare cordon in { matter-places }
}
matter-cordon-overlap = Clear { $length } of overlapping cordon in { matter-places }
matter-crowded = { $note ->
    [yes] Stubs stand close to uprights in { matter-places } on { matter-trees }
   *[no] Thin out uprights that stand too close in { matter-places } on { matter-trees }
}
matter-sparse = { $note ->
    [yes] Wide spaces wait for notched buds in { matter-places } on { matter-trees }
   *[no] Fill wide spaces in { matter-places } on { matter-trees }{ $uprights ->
        [0] {""}
        [one] , with room for one more upright
       *[other] , with room for about { $uprights } more uprights
    }
}
matter-renewal = Renew { matter-uprights } on { matter-trees }
matter-see-through = The wall can be seen through in { matter-places }
matter-light-gap = Light falls through in { matter-places }: in a season as much as { $light } of this wall would catch
matter-uneven = Uprights of one age are uneven on { matter-trees }
matter-stock-short = Stock is too short for its place on { matter-trees }
matter-bends = Wood is bent too tight in { matter-places }
matter-over-vigorous = Over-vigorous near the trunk: { matter-uprights } on { matter-trees }
matter-outside = Tip beyond its own cordon: { matter-uprights } on { matter-trees }
matter-crossing = Straighten { matter-uprights } that lean across a neighbour
matter-side-shoots = Remove buds and shoots left on the sides and underneath, on { matter-trees }
matter-rub-out = Rub out side and underside buds at bud swell on { matter-trees }
matter-laterals = Remove laterals on { matter-trees }
matter-tipping = Tip { matter-uprights } on { matter-trees }
matter-returns = Thin the shoots that return from stubs, in { matter-places } on { matter-trees }
matter-above-wall = Uprights stand above the wall's height on { matter-trees }
matter-wires-far = Wires are too far apart in { matter-places }
matter-dark = The renewal zone is too dark in { matter-places } along the row
matter-work-void = { $count ->
    [one] One piece of planned work does
   *[other] { $count } pieces of planned work do
} nothing
# What was found, where a matter is worded as work to be done: a report tells what stands there
found-cordon-gap = { $note ->
    [yes] { matter-cordon-gap }
   *[no] { $length } of cordon is bare in { matter-places }
}
found-cordon-overlap = Cordons overlap by { $length } in { matter-places }
found-crowded = { $note ->
    [yes] { matter-crowded }
   *[no] Uprights stand too close in { matter-places } on { matter-trees }
}
found-sparse = { $note ->
    [yes] { matter-sparse }
   *[no] Uprights stand too far apart in { matter-places } on { matter-trees }
}
found-renewal = Due for renewal: { matter-uprights } on { matter-trees }
found-crossing = Leaning across a neighbour: { matter-uprights }
found-side-shoots = Buds and shoots are left on the sides and underneath, on { matter-trees }
found-rub-out = Side and underside buds will swell on { matter-trees }
found-laterals = Uprights bear laterals on { matter-trees }
found-tipping = Last year’s growth is not tipped: { matter-uprights } on { matter-trees }
found-returns = Shoots that return from stubs crowd each other in { matter-places } on { matter-trees }


# Light

finding-light-gap = Light gap { $rank } from { $from } along the row, { $width } wide, { $low } to { $high } high: what falls through in a season would be caught by { $worth } of this wall; the limit is { $most }
finding-light-cost = ; costs the season's light of { $costs } of wall
finding-light-under-filled = The wall catches { $share } of what it would if filled as usual: { $caught } of the season's light instead of { $filled }, at a leaf area index of { $index }{ $given ->
    [no] , rows taken as { $spacing } apart
   *[yes] {""}
}; a grown wall needs { $asked } or more{ $grown ->
    [no] . Half of its uprights reach { $top } yet
   *[yes] {""}
}
finding-light-under-target = The wall catches { $caught } of the season's light, at a leaf area index of { $index }{ $given ->
    [no] , rows taken as { $spacing } apart
   *[yes] {""}
}; { $asked } or more is usual for grown apple walls, this one would catch { $filled } if filled as usual
finding-renewal-zone-dark = Renewal zone too dark from { $from } to { $to } along the row: { $light } of the light reaches the first { $zone } above the cordon; stubs need { $least }

limit-wall_thickness_mm = Thickness of the leafy wall
limit-leaf_on_face = Leaf area on a square metre of a filled wall's face in season, m² (four fifths of it count before the season's growth)
limit-light_fill_share = Share of what it would catch if filled that a grown wall is to catch
limit-light_target_share = Share of the season's light that is usual for grown apple walls
limit-renewal_light_share = Least light in the renewal zone
limit-renewal_zone_mm = Height of the renewal zone above the cordon
limit-light_gap_max_mm = Light lost through one opening, as a length of wall

# Why what was typed, or stands in a cell, is no length and no number.

number-none = no number
number-two = two numbers without a unit between them in '{ $text }'
number-word = '{ $text }' is a word; a number is wanted
number-unit = '{ $text }' is no unit of length (mm, cm, m, in, ft)
number-before = no number before '{ $text }'
number-bare = a number without a unit at the end of '{ $text }'
number-long = '{ $text }' is longer than 10 km
number-inches = '{ $text }' has a foot or more of inches behind the feet; there must be less than 12 in
number-fraction = '{ $text }' is no fraction: above and below the stroke must be whole numbers, as in 3/4
number-no = '{ $text }' is no number
number-marks = '{ $text }' is no number (write thousands without a mark)
number-thousands = '{ $text }' in millimetres may be thousands or decimals; write it without the mark
number-laterals = '{ $text }' is no count such as 5, or 5/1.20 m

# What the cells of a table may hold: its own words, which are no language's.

accepted-kinds = one of stem, leader, upright, shoot, bud, stub, lost
accepted-parents = one of stem, leader, leader 2, upright 3 or a line's number in its tree
accepted-ticks = one of yes, no
accepted-when-cut = none, or a leaf and a window (dormant, bud swell, early summer, after harvest) for each length, as in none + 4 dormant
accepted-cut-length = none for a season without a length
accepted-origins = one of kept bud, return, end growth, cut-back bud, wild bud, notch
accepted-poses = one of an angle in degrees, laid, upright, free, stub or 'planted 45 laid 3'
accepted-season = a whole number: the leaf in which it grew
accepted-whole = a whole number
accepted-length = a length
accepted-lengths = a length such as 0.60 m, or one a season, as in 0.60 + 0.45
accepted-thickness = a thickness such as 14 mm, or none
accepted-radius = a radius such as 300 mm, or empty
accepted-laterals = a count such as 5, or a count and a length, as in 5/1.20 m
accepted-place-cell = a place such as 2.40 m, or along 0.30 m
accepted-no-length = no length for what has not grown
accepted-sides = one of left, right, top, side, under
accepted-place = a place along the row
accepted-pose-leader = one of laid, laid 3
accepted-pose-upright = one of upright, a lean such as -5
accepted-pose-stem = one of laid 3, upright -5, free, stub
accepted-pose-stub = stub
accepted-degrees = a number of degrees
accepted-seasons-of-lengths = one of by season, in all
accepted-coverings = one of bare, plastic

# Rules that a plan file breaks.

rule-cordon-wire = a trellis has a cordon wire
rule-stem-parent = the stem grows from nothing
rule-no-parent = a shoot but the stem has a parent
rule-parent-before = a parent stands before what grows from it
rule-later-work = version 1 knows no notches
rule-later-word = version { $version } does not know this; a later one does
rule-stray = a shoot of this pose has none
rule-seen = what was seen is right, missed or wrong
rule-mark-ends = an arrow, a distance and a stretch have two ends (to), a note has one
rule-fingerprint = a sent copy is told by sixteen hexadecimal digits
rule-laid-way = a laid shoot goes left or right
rule-of-shoot = tree { $tree }, shoot { $shoot }: { $what }
rule-id-twice = its id stands twice
rule-second-stem = a second stem
rule-parent-missing = its parent does not stand before it
rule-off-parent = its base lies off its parent
rule-out-of-range = a length, thickness or season is out of range
