# What is said where work is handed out. The page's first module holds none of it.

crew-job = { $job ->
    [grub_out] Grub trees out
    [plant] Plant
    [stub] Cut stubs
    [laterals] Take laterals off
    [tip] Tip, hold the height
    [cut_back] Cut back
    [take_off] Take shoots off
    [wires] Wires
    [buds] Rub buds out, keep buds
    [notch] Notch
   *[tie] Lay and tie
}
crew-job-diseased = { $job } – diseased trees, last
crew-tool = { $job ->
    [grub_out] saw, spade
    [plant] spade, tape, angle board
    [stub] pruning saw, tape, a stick of the stub’s length
    [laterals] shears, tape
    [tip] shears, tape
    [cut_back] shears, tape
    [take_off] saw, shears, tape
    [wires] strainer, pliers
    [buds] hands, tape
    [notch] knife, tape
   *[tie] ties, sleeves, tape
}

caution-glasses = Wear glasses: stubs meet a stooping face.
caution-spray = Enter only after the re-entry interval of the last spray.
caution-dry = Prune in dry weather, two dry days at least, and disinfect tools.
caution-canker = Below a visible canker cut at least { $below } away; where it is nearer, tape it, leave it, call.
caution-trunk = Leave a stub near the trunk, no flush cut.
caution-saw = Saw: the free hand and everybody else out of its way.
caution-shears = Powered shears: a cut-resistant glove on the free hand, nobody within reach.
caution-ladder = Ladders and pole saws: three points of contact, not above the third step from the top, nobody below, mind power lines.
caution-loosen = Loosen ties in late summer, before they cut in.
caution-diseased = Diseased trees come last. Disinfect tools after every tree, and take the cuttings away.

refusal-rate = { $name } = { $value }: a rate must be between { $low } and { $high } seconds, and be one of { $names }

crew-row = Row: { $row }
crew-fill-in = Block: ______________   Date: ______________   Foreman: ____________________   Crew: ____________________________
crew-with = Tool: { $tools }. { $people ->
    [one] One person, some { $minutes } min for this whole pass
   *[other] { $people } people, some { $minutes } min for this whole pass, each of them
}{ $ties ->
    [0] .
    [one] ; one tie, { $sleeves } sleeves.
   *[other] ; { $ties } ties, { $sleeves } sleeves.
}
crew-each = On each: { $work }
crew-how = Numbers are counted from the trunk along the wire, uprights and stubs in one, where wood goes both ways on each side by itself. A stub counts as one with all that grows from it; the cordon’s own slanting end is no upright. Follow each upright down to its own trunk: the last ones of a tree may stand over the next tree’s foot. Count all of a tree before the first cut. Behind the number stands the distance from the tree’s foot along the row, and the thickness at the base where that is asked for.
crew-bays = Bay { $bay } lies between post { $bay } and post { $next }, counted from the row’s beginning; trees are counted anew in each bay.
crew-measured = What stays is measured along the shoot, on its upper side, from where it leaves the wood that it grows from.
crew-laterals = In brackets behind the number stands how many laterals to look for on that upright. All of them come off, from its base to its tip, be they more or fewer than told: that number stops nobody. Cut each where it leaves the upright; the upright itself stays whole. Thickness is estimated from length, and nobody recorded at what height and on which side each of them stands: in the drawing that is made up.
crew-laterals-of = { $piece } ({ $count })
crew-laterals-all = { $count ->
    [one] One lateral
   *[other] { $count } laterals
} in all{ $measured ->
    [yes] , some { $length } long and { $thick } thick
   *[no] , not measured
}, from the cordon up to { $high } above the ground.
crew-cut = Behind each number stand two lengths: what comes off, measured down from the tip, and how high above the ground that cut is. The first is taken with a stick, the second is to check it by. Where they differ by more than a hand: tape the tree, leave it, call.
crew-cut-of = { $piece }: { $off }, at { $height }
crew-plant = foot at { $foot } on the tape; { $angle } from the ground, leaning to the { $side ->
    [left] left
   *[right] right
}; stock of { $length }
crew-along = Two lengths lead to each bud: “along” is measured on the wood itself and its bend, from where it begins (a leader that is the tree’s own stem begins at the ground); the one behind the dot is measured level along the row, from the tree’s foot.
crew-buds = A bud that is kept stays at the place that is told, whole and unbruised: mark it. Rub out with the thumb only what the list says is rubbed out, while it is soft.
crew-tie = Laid wood goes along the cordon wire, { $height } above the ground: bend it slowly, a little at a time, and stop where it cracks. Tie loosely, with a sleeve where it lies on the wire.
crew-wires = A wire runs along the whole row, from { $from } to { $to } on the tape, level from post to post, at the height that is told.
crew-notch = Notch beyond the bud, on the side of the wood’s end and a finger’s width from it: through the bark just into the wood, a third of the way around, as wide as the blade is thick (from memory). The bud itself stays whole.
crew-stroke = { $job ->
    [stub] Of the two strokes the outer one, farther from the cordon, is the cut; what is dashed comes off.
   *[other] The stroke is the cut; what is dashed beyond it comes off.
}
crew-counted = { $found } ____
crew-differs = Where you count other uprights than told, write your count on the line behind it. Then, and where there is gum or a split: tape the tree, leave it, call.
crew-not-today = Today this job alone, and what has a box: all else stays, however wrong it looks.
crew-stick = cut a stick as long: { $length } (true where this is printed at 100 %)
crew-list = { $count ->
    [one] One box
   *[other] { $count } boxes
} on { $trees ->
    [0] the trellis
    [one] one tree
   *[other] { $trees } trees
}: tick each
crew-found = As it is found
crew-right = RIGHT
crew-wrong = WRONG: { $job ->
    [stub] cut flush, nothing returns
    [laterals] headed, and laterals stand
    [tip] far too much is gone
    [cut_back] taken off whole
   *[take_off] another shoot is gone
}
crew-solved = Solved:
crew-try = Try { $number }: point at { $pieces }
crew-answer = Answer { $number }:
crew-find = find { $count }
crew-find-sides = find { $left } on the left, { $right } on the right
crew-number = no. { $number }{ $side ->
    [left] {" "}left
    [right] {" "}right
   *[none] {""}
}
crew-missing = { $count ->
    [one] before it tree { $trees } is missing
   *[other] before it trees { $trees } are missing
}
crew-tree = Tree { $tree }
crew-in-bay = Bay { $bay }, tree { $place } (tree { $tree } of the row)
crew-trellis = On the wires
crew-marking = Marking sheet for the foreman – { $job }
crew-marking-how = Who paints walks first; the crew cuts paint. Count all of a tree, paint what is told, then tick the tree. Where the count differs paint nothing: tape it.
crew-paint = { $tree }, paint { $pieces }

# The page's sheet on which it is chosen what is printed.
hand-title = Hand out the work of leaf { $leaf }
hand-all = { $scheme }: { $passes ->
    [one] one pass
   *[other] { $passes } passes
}, { $pieces ->
    [one] one piece
   *[other] { $pieces } pieces
}, some { $hours } h of one person. Each pass is one walk along the row with one job, in this order.
hand-none = No work stands in leaf { $leaf } of { $scheme }: there is nothing to hand out.
hand-usual = Nobody planned this: it is the usual work of leaf { $leaf }, which the scheme does not hold.
hand-usual-do = Show the usual work of this leaf
hand-usual-none = The usual rules have none either.
hand-count = { $count ->
    [one] One piece
   *[other] { $count } pieces
} on { $trees ->
    [0] the trellis
    [one] one tree
   *[other] { $trees } trees
}
hand-people = People together
hand-language = Sheets in
hand-print = Print this pass
hand-print-all = Print all passes
hand-mark = Print its marking sheet
hand-mark-all = Print the foreman’s marking sheets
hand-file = leaf-{ $leaf }-{ $marking ->
    [yes] marking
   *[no] crew
}{ $pass ->
    [0] {""}
   *[other] -{ $pass }
}
hand-trees = Tree by tree
hand-tree = { $tree }: { $count ->
    [one] one piece
   *[other] { $count } pieces
}
hand-void = { $count ->
    [one] One piece can’t be done as the row stands, and is in no pass:
   *[other] { $count } pieces can’t be done as the row stands, and are in no pass:
}
hand-rates = How long work takes
hand-rates-what = Seconds of one person. Type how long your crew takes: the minutes follow, here and on the sheets.
hand-rates-source = from memory
hand-reset = All times and people as usual
field-walk = Walk it in the row
field-begin = Begin at the first tree
field-on = Go on where you were
field-second = Check five trees that are done
field-back = Back to the passes
field-progress = { $done } of { $all } trees told, { $left ->
    [one] one piece
   *[other] { $left } pieces
} left{ $skipped ->
    [0] {""}
    [one] , one skipped
   *[other] , { $skipped } skipped
}
field-done = Done
field-skip = Skip
field-all-done = All done
field-all-skip = Skip this tree
field-why = Why it is skipped
field-note = Note at this tree
field-before = Back
field-next = Next
field-right = Right
field-missed = Missed
field-wrong = Wrong
field-extra = Cuts nobody asked for: { $count }
field-less = One less
field-more = One more
field-looked = Checked: { $right } of { $pieces } right, { $missed } missed, { $wrong } wrong; cuts nobody asked for: { $extra }
field-take = Take ticks from a file…
field-take-what = The plan as it was saved on the telephone: what is ticked and noted there comes in where the work is the same.
field-taken = { $pieces ->
    [one] One piece taken
   *[other] { $pieces } pieces taken
}, notes: { $notes }; told before: { $same }; of work that is otherwise here: { $strange }
field-strange = Tree { $tree }: { $work } is not in this plan, or otherwise
field-no-scheme = The scheme { $scheme } is not in this plan
rate-grub-out = A tree grubbed out (s)
rate-plant = A tree planted (s)
rate-stub = A stub cut (s)
rate-laterals = Laterals of one upright (s)
rate-tip = A tip (s)
rate-cut-back = A shoot cut back (s)
rate-take-off = A shoot taken off (s)
rate-wire = A wire, whatever its length (s)
rate-wire-post = A wire, at each post (s)
rate-bud = A bud kept, or the buds of a shoot rubbed out (s)
rate-notch = A notch (s)
rate-tie = A shoot laid or stood up, and tied (s)
rate-walk = The way to a tree and the look at it (s)
rate-disinfect = Tools disinfected (s)
refusal-seconds = It must be between { $low } and { $high } seconds, not { $value }
refusal-people = It must be a whole number of people between { $low } and { $high }, not { $value }

# What is ordered for a row, and how its trees are planted.
order-headed-typed = h headed
refusal-delivered = Line { $line }: { $reason }
refusal-delivered-range = Line { $line }: { $value } is no length of a tree for planting. It must be between { $low } and { $high } above the ground
order-title = Order and materials: { $row }
order-what = For the whole of the finished wall, as if nothing stood yet: every place has its tree, wires go up to the wall’s height. Posts are counted here, never designed.
order-trees = { $unheaded ->
    [yes] Trees, unheaded, buds intact, at least { $length } above the ground
   *[no] Trees with two leaders, each at least { $length } above their fork
}
order-spare = Trees to spare, at least { $length }
order-wire-at = Wire at { $height }, { $kind ->
    [plastic] plastic-covered
   *[bare] bare steel
}{ $new ->
    [yes] {""}
   *[no] {" "}(the row has it)
}
order-posts = Posts, at most { $span } apart{ $assumed ->
    [yes] {" "}(assumed: the row has none)
   *[no] {""}
}
order-ties = Ties of the finished wall
order-sleeves = Sleeves: one for each tie on bare wire
order-sum = What has a price costs { $cost } { $currency }
order-coils = A coil of { $kg } kg holds { $coil } of bare wire { $wire } thick: { $coils ->
    [0] no coil of it
    [one] one coil
   *[other] { $coils } coils
}. A metre at each end of a wire is counted in for tying off (from memory). Covered wire is bought by the metre.
order-loads = What each wire bears between two posts
order-height = Wire at
order-crop-on = Crop (kg/m)
order-tension = Tension (kN)
order-sag = Sag
order-load = With { $t } t/ha there are { $kg } kg of crop on a metre of row, of which each wire bears its share of the wall. Did the cordon wire bear it all, its tension would be { $tension } kN and its sag { $sag }. A wire is set without load to { $setting } kN, never over 1.1 kN; one of 2.5 mm breaks from { $breaking } kN on (fence-wire data). Wood, leaves and wind are not counted.
order-spares = Trees to spare
order-crop = Crop that the wires bear
order-crop-unit = t/ha
order-wire = Thickness of the wire
order-source-memory = from memory
order-source-memory-judged = judged, within reported crops
order-prices = Prices, if you want a sum
order-prices-what = Each as you buy it, in whatever currency. They are kept on this device, for all rows, and stand in no plan.
order-currency = Currency
order-price = { $item ->
    [tree] A tree
    [wire_m] Bare wire, a metre
    [covered_wire_m] Covered wire, a metre
    [post] A post
    [tie] A tie
   *[sleeve] A sleeve
}
order-refused = It must be between { $low } and { $high }, not { $value }
order-column-what = What
order-column-amount = How much
order-column-cost = Cost
order-print = Print the order
order-save = Save it as a table (.csv)
order-table-name = order
delivered-title = On delivery
delivered-what = Measure each tree above the ground and write a length a line, behind it h where it came headed: { $one } h. The trees are laid out so that the least is lacking in all; a headed tree where an unheaded one is needed counts as 0.15 m that lack (judged).
delivered-lengths = Lengths of the delivered trees
delivered-lay = Lay them out
delivered-told = { $trees ->
    [one] One tree
   *[other] { $trees } trees
} for { $places ->
    [one] one place
   *[other] { $places } places
}: { $lacking } lack in all, { $short ->
    [0] no tree is too short
    [one] one tree is too short
   *[other] { $short } trees are too short
}, { $headed ->
    [0] none is headed where it must not be
    [one] one is headed where it must not be
   *[other] { $headed } are headed where they must not be
}, { $empty ->
    [0] every place has its tree
    [one] one place gets none
   *[other] { $empty } places get none
}, { $over ->
    [0] none is left over
    [one] one is left over
   *[other] { $over } are left over
}.
delivered-none = Write a length a line first.
placed-none = No tree: the place stays empty
placed-tree = Delivered tree { $number }, { $length }{ $cut ->
    [yes] {" "}headed
   *[no] {""}
}{ $lacks ->
    [gap] , { $short } too short: the wire stays bare from { $from } to { $to } until its end grows
    [short] , { $short } too short
   *[no] {""}
}{ $headed ->
    [yes] , though unheaded is needed
   *[no] {""}
}
placed-line = Tree { $tree }, needs { $length }: { $placed }
delivered-take = Take into the record
delivered-take-what = Each stem of the row as found gets the length of its tree; of headed ones a quarter is taken as cut off (assumed). A place without a tree is recorded as lost. One undo takes it all back.
delivered-not-planted = The row is not just planted: the record is not touched.
delivered-taken = The record holds the trees as they were delivered.
planting-file = planting
planting-print = Print the planting sheet
planting-save = Save the planting sheet as a table (.csv)
planting-title = Planting sheet
planting-how = Hold the tape along the row so that the first tree’s foot comes at { $first }{ $posts ->
    [yes] {" "}and the first post stands at { $post }
   *[no] {""}
}. Set each foot at its mark, its stem at its angle, leaning along the row and not across it. Where a post is nearer than { $clear } ask before digging.
planting-all = All alike: { $angle } from the ground, leaning to the { $side ->
    [left] left, towards the row’s beginning
   *[right] right, towards the row’s end
}
planting-stock = Plant unheaded, do not cut the end, keep every bud. The graft stays above the ground. Left and right are as the wall is drawn: the row’s beginning is on the left.
planting-list = { $count ->
    [one] One place
   *[other] { $count } places
}: tick each
planting-place = Tree { $tree }: foot at { $foot }
planting-lean = { $angle }, leaning to the { $side ->
    [left] left
   *[right] right
}
planting-length = Needs { $length }
planting-end = Ends with the row: no next tree on its way
planting-post = Post { $near } off: ask
planting-wire = wire at { $height }
planting-angle = { $angle } from the ground
planting-tape = the tape, to the foot
caution-planting = Power lines and pipes: know where they run before digging. Roots stay moist and in the shade until they are in the ground.

counted-buds = { $spurs ->
    [one] One spur
   *[other] { $spurs } spurs
} counted on { $trees ->
    [one] one tree
   *[other] { $trees } trees
}: { $buds } fruit buds a spur in the mean, { $dead } of them dead{ $opened ->
    [yes] , { $flowers } flowers a bud
   *[no] ; no bud was opened, { $each } flowers a bud are assumed
}. The model has { $usual } buds of { $each } flowers on the spurs of these trees: living flowers are { $factor } of that{ $ranged ->
    [yes] , { $low } to { $high } in eight of ten such counts
   *[no] ; one spur tells no range
}{ $held ->
    [yes] . More was counted: what is over two and a half times the model’s is rather a slip and does not count (common practice, no source)
   *[no] {""}
}
counted-crop = Crop of leaf { $leaf }: { $crop } t/ha by the count{ $ranged ->
    [yes] , { $low } to { $high } by its own range
   *[no] {""}
}; { $model } by the model alone
counted-tips = The shares go by the buds counted for leaf { $leaf }, the harvest that these tips act on
counted-no-tips = The buds counted tell of the harvest of leaf { $leaf }; tips act on the one after it, and their shares stay the model’s

count-do = Count buds on spurs
count-what = Some spurs on five trees, counted in winter, tell what crop may be expected.
count-title = Buds counted before leaf { $leaf }
count-how = Four spurs each on trees spread along the row: the fruit buds on the spur, how many of them are dead (cut open: brown inside), and the flowers in one bud where you open one. Enter goes on to the next field; an empty line counts for nothing. What stands here is kept in the plan when you leave, as one step.
count-tree = Tree { $tree }
count-head-spur = Spur
count-head-buds = buds
count-head-dead = dead
count-head-flowers = flowers
count-cell = { $what }: tree { $tree }, spur { $spur }
count-none = Nothing is counted: the crop of leaf { $leaf } is the model’s.
count-keep = Keep and go back
count-remove = Take the count away

# A report for a client.

report-title = Report: { $row }
report-fields = Block: { $block }   Date: { $date }   Advised by: { $by }
report-of = { $row }. Scheme: { $scheme }.
report-picture-found = As it was found, before the work of leaf { $leaf }
report-picture-advised = As it is advised, after the work { $when }
report-when = { $window ->
    [bud_swell] at bud swell of leaf { $leaf }
    [early_summer] in early summer of leaf { $leaf }
    [after_harvest] after the harvest of leaf { $leaf }
   *[dormant] dormant, before the buds of leaf { $leaf } swell
}
report-found = What was found: { $count ->
    [0] nothing
    [one] one matter
   *[other] { $count } matters, the gravest and largest first
}
report-found-none = Nothing was found that has to be seen to.
report-matter = { $urgent }: { $matter }
report-outcome = { $how ->
    [settled] Settled by the work advised, { $when }.
    [less] Made less by the work advised, { $when }.
    [way] Seen to by the work advised, { $when }; what is left waits for what comes of it.
   *[open] Not changed by this leaf’s work.
}
report-advised = What is advised, by when and why
report-sum = Scheme { $scheme }: { $passes ->
    [one] one pass
   *[other] { $passes } passes
}, { $pieces ->
    [one] one piece of work
   *[other] { $pieces } pieces of work
}, some { $minutes } min of one person, from memory.
report-none = No work is advised in leaf { $leaf }.
report-pass = { $job }: { $when }
report-why = Why: { $why }
report-why-kind = { $kind ->
    [lay] A shoot that is laid along the wire fills a bare stretch; it must bend without breaking (common practice, no source)
    [plant] An empty place bears nothing and leaves its wire bare; new stock fills it in a few leaves (common practice, no source)
    [remove_tree] A dead tree holds a place that new stock can fill (common practice, no source)
    [replace_tree] A tree that fails leaves its wire bare; new stock fills it in a few leaves (common practice, no source)
    [stand] An upright that stands straight keeps its place in the wall and shades no neighbour (common practice, no source)
    [move_bud] Buds at even distances bring an even wall (common practice, no source)
    [cover_wire] Bare wire rubs and lets canker in; a cover lowers the risk, it does not remove it (common practice, no source)
    [remove_wire] A wire that carries nothing is in the way (common practice, no source)
   *[move_wire] Wires at the height of their wood carry it (common practice, no source)
}
report-but = Without this pass, the others done, five leaves bring by the model { $parts }.
report-but-same = the same crop, fill and age of wood
report-but-crop = { $before } t/ha instead of { $after }
report-but-fill = a cordon filled to { $was } instead of { $filled }
report-but-age = wood of { $old } seasons at the most in the winters until then instead of { $age }
report-but-costs = This pass costs crop in these leaves; why it is done all the same is told above.
report-brings = What this leaf’s work brings over five leaves, beside the same row with nothing done in this leaf, by a calibrated model: crop { $after } t/ha instead of { $before } (a difference of { $low } to { $high }), of them in the coming harvest { $then } instead of { $else }; cordon filled at the end of the last of them to { $filled } instead of { $was }; distances between uprights vary by { $spacing } instead of { $uneven }; { $light } of a clear season’s light is caught instead of { $dark }; oldest wood in the winters until then { $age } instead of { $old } seasons.
report-left = Left for this year: { $count ->
    [0] nothing
    [one] one matter
   *[other] { $count } matters
}
report-left-none = Nothing is left for this year by choice; what the work does not settle is told above, under what was found.
report-reason = Reason: { $reason }
report-marks = Marks on the pictures: { $count ->
    [0] none
   *[other] { $count }
}
report-marks-none = No marks are put on the wall.
report-noted = Notes of the record, a sheet of paper on the pictures
report-changes = Every change, tree by tree: { $count ->
    [0] none
   *[other] { $count }
}
report-changes-none = The plan changes nothing on any tree.
report-time = leaf { $leaf }, { $window ->
    [bud_swell] bud swell
    [early_summer] early summer
    [after_harvest] after harvest
   *[dormant] dormant
}
report-change = { $when }: { $work }{ $stands ->
    [yes] {" "}(by rule)
   *[no] {""}
}
report-care = Take care
report-defers = Local codes, product labels and the law come before this report. Posts, anchors, tensioned wire and wind loads are for a qualified person; sprays, paints and growth regulators for whoever is licensed where that is asked, by their label. This report gives no rates.
report-model = What is said of coming leaves is a model’s, whose values are mostly judged: it shows what may be expected, not what will be.
draft-not-taken = A draft is open and not taken: none of its work is in what is handed out here.
report-block = Block
report-date = Date
report-by = Advised by
report-holds = The row as found and as advised in leaf { $leaf }, what was found, what is advised, by when and why, what is left, the marks, every change by tree. What stands in the fields is kept on this device; empty ones have a line to be written on.
report-print = Print the report
report-making = The report is being made …
report-file = report
report-changes-how = All that is planned from this leaf on, as one walks along the row. Press a line to go to its tree.
report-more = { $count ->
    [one] Show one more tree
   *[other] Show { $count } more trees
}
