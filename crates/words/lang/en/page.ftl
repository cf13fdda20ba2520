# What the page says.

start-title = Plan a planar cordon row
start-lead = Bring in a row as it stands, try the training on it, and see at once where its cordon is bare, crowded or overlapping. Everything stays on this device; nothing is sent anywhere.
page-loads = Cordonry is loading …
way-file = Open a file
way-file-help = A plan or a file of many rows saved from here (.json), or a measured row as a table (.csv), one line a shoot. A file can also be dropped on the page.
file-choose = Choose a file …
way-paste = Paste a table
way-paste-help = Copy the lines of a measured row from a spreadsheet, with the line of column names.
way-paste-sample =
    tree,place,kind,length,diameter
    1,0 m,stem,2.0 m,24 mm
way-paste-do = Read the table
pasted-name = Pasted row
way-example = Start from an example
way-example-help = All of them are invented.
example-third-leaf = A third-leaf row with work in its coming season
example-short-stock = Short headed stock that leaves gaps
example-two-cordons = Trees with two cordons
example-missed-buds = Bud removal missed in the first leaf
example-overdue-renewal = Renewal long overdue
example-uneven-uprights = Uneven uprights
example-opposed-leans = Feet that lean away from each other
example-lost-tree = A tree lost
example-clean = A third-leaf row in good order
example-measured = A measured table of 40 trees, with slips in it
way-lesson = Lessons
way-lesson-help = Two schemes of one invented row that differ in one thing. The note of each asks, answers, and says how sure that is.
lesson-buds-removed-or-missed = Bud removal done, or missed and set right
lesson-buds-set-right-or-never = Missed buds set right, or never
lesson-structure-or-crop-first = Structure first or crop first, on a row with missed buds
lesson-unheaded-or-headed = Stock left whole, or headed at planting
lesson-headed-laid-at-once-or-later = Headed stock laid at once, or a leaf later
lesson-rising-or-flat = Laid with a slight rise, or dead flat
lesson-one-way-or-opposed = All leaders one way, or by turns
lesson-tipped-until-height-or-always = Tipped until the wall has its height, or every winter
lesson-renewal-a-fifth-or-never = A fifth renewed each winter, or none
lesson-renewal-a-fifth-or-an-eighth = A fifth renewed, or an eighth
lesson-renewal-a-fifth-or-a-quarter = A fifth renewed, or a quarter
lesson-renewal-early-or-late = Renewal begun before leaf 3, or before leaf 5
kept-title = Rows on this device
kept-forget-short = Remove
kept-forget-which = Remove from this device: { $row }
kept-alike = { $row } ({ $number })
kept-trees = { $count ->
    [one] { $count } tree
   *[other] { $count } trees
}
kept-leaf = leaf { $leaf }
kept-size = { $size } kB
kept-rename = Rename
kept-rename-which = Rename: { $row }
kept-name-keep = Keep this name
kept-name-leave = Leave it as it was
kept-copy-do = Copy
kept-copy-which = Copy: { $row }
kept-copy = { $row } (copy)
kept-gone = “{ $row }” is removed from this device.
kept-gone-back = Put it back
kept-busy = This row is open in another tab, which saves it. Close it there first.
kept-not-done = This could not be done: the device refused it, or the row has changed meanwhile. Nothing was changed.
kept-denied = This browser keeps nothing for this page, as in a private window. Save each row as a file before you leave it.
kept-aside = This row could not be opened: { $why }. It is kept as it is, and opened no more by itself.
kept-aside-save = Save what is kept of it as a file
kept-aside-save-which = Save what is kept of it as a file: { $row }
kept-aside-again = Try again
kept-aside-again-which = Try again: { $row }
kept-stopped = the program stopped at it
kept-unreadable = what the device keeps of it can’t be read
kept-set-aside = The row that was open last stopped the page twice while it was opened. It is set aside: it stands among the rows on this device, where it can be saved as a file.
kept-all-save = Save all rows as one file
kept-all-open = Open all rows of a file …
kept-all-name = rows
kept-all-saved = { $count ->
    [one] { $count } row is
   *[other] { $count } rows are
} in the file, each as it stands; what could be undone is not in it.
kept-all-saved-but = { $count ->
    [one] { $count } row is
   *[other] { $count } rows are
} in the file. { $left ->
    [one] { $left } row could not be read and is
   *[other] { $left } rows could not be read and are
} not in it: save it by itself.
kept-lasting = The browser keeps these rows until they are removed.
kept-passing = The browser may clear these rows when the device runs short of room. Save them as a file too.
kept-lasting-ask = Ask the browser to keep them
kept-lasting-not = The browser promises nothing as yet. Save the rows as a file too.
rows-at = Row { $number } of { $count } …
rows-came = { $count ->
    [0] No row of { $file } came in.
    [one] { $count } row of { $file } came in and stands among the rows on this device.
   *[other] { $count } rows of { $file } came in and stand among the rows on this device.
}
left-out-title = { $count ->
    [one] { $count } row could not be taken
   *[other] { $count } rows could not be taken
}
left-out-help = The others came in. What could not be taken can be saved as a file, as it stands.
left-out-row = Row { $place }, “{ $row }”: { $why }
left-out-full = it could not be saved on this device, which may be full
left-out-save = Save what could not be taken
left-out-name = rows-left-out
left-out-close = Close
unnamed = Unnamed row
card-close = Close the card
chosen-title = What is chosen
chosen-closed = { $part } stays chosen; Enter opens its card, Escape lets it go.
chosen-none = Press a shoot on the wall, or choose one with ← and →: what it is and what can be done with it stands here.

doings = What can be done with the plan
undo = Undo
redo = Redo
undo-step = Undo: { $step }
redo-step = Redo: { $step }
files = Files
save-plan = Save the plan as a file
pass-on = Pass the plan on: link, code
save-table = Save the row as found as a table
save-table-shown = Save the row as it is shown as a table
table-shown-name = leaf-{ $leaf }-{ $work }-the-work
table-shown-saved = Saved: the row in leaf { $leaf } as it is shown, { $work } the work of this time.
table-found-name = as-found
table-found-saved = Saved: the row as it was found before leaf { $leaf }. The work planned for it is not in a table; the plan file holds it.
save-drawing = Save the drawing (SVG)
other-row = Another row …
print = Print
pdf = PDF
pdf-making = The PDF is being made …
pdf-missing = What makes PDFs did not come. It is loaded the first time that it is asked for, which takes a connection.
pdf-failed = The PDF could not be made. Print instead.
print-early = The sheets were not loaded yet, and only what is in sight was printed. Print once more.
paper-choice = Print on
paper = { $size ->
    [letter] Letter
   *[other] A4
}
language-choice = Language
lengths-metres = units: metres
lengths-feet = units: feet
lengths-to-feet = units: metres; show feet and inches
lengths-to-metres = units: feet and inches; show metres
kept-saved = Saved here
kept-waiting = Saving …
kept-elsewhere = Not saved: open in another tab
kept-failing = Not saved
row-name = Name of the row

schemes-title = Scheme
schemes-menu = Schemes
scheme-add = New scheme
scheme-copy = Copy scheme
scheme-rename = Rename scheme
scheme-remove = Remove scheme
scheme-name = Name of the scheme
scheme-next = Look at the next scheme
scheme-beside = Another scheme beside it, or none
step-scheme-add = adding a scheme
step-scheme-copy = copying a scheme
step-scheme-name = naming a scheme
step-scheme-remove = removing a scheme
two-choice = Beside it
two-none = none
two-wall = The row under { $scheme }, at the same time
two-here = worked on here
two-swap = Work on this one
two-close = Put it away
two-figure = Figure
two-crop-by = Crop up to leaf { $leaf } in all, t/ha
two-hours = Hours to leaf { $leaf }, from memory
two-cuts = Cuts up to leaf { $leaf }
two-trees = Trees up to leaf { $leaf }
two-wires = Wire work up to leaf { $leaf }
two-ties = Ties up to leaf { $leaf }
two-sleeves = Sleeves up to leaf { $leaf }
two-waits = …
two-told = { $figure }: { $one } { $own }, { $other } { $its }
two-work = Work of this time under { $scheme } alone
two-more = and { $count } more
two-same = The same work at this time under both.
two-apart = The first difference: leaf { $leaf }, { $window }.
present = Present
present-phase = Before / after
present-ask = Which ones?
present-tell = Answer
present-matter = What to do
present-leaf-previous = ◀ Leaf
present-leaf-next = Leaf ▶
present-scheme = Scheme ▶
present-leave = Leave
present-asks = { $count ->
    [0] Which ones? Press the shoots that the class names, or go to them by the arrow keys and press Enter.
    [one] Which ones? One is named.
   *[other] Which ones? { $count } are named.
}
present-right = { $right } of { $named } named are right. Looked for: { $work }.
lesson-answer = Answer:
leaf-next = Look at the next leaf
leaf-previous = Look at the leaf before
window-next = Look at the next time of the year
window-previous = Look at the time of the year before
leaf-copy-on = Copy work on to the next leaf
step-copy-leaf = copying a leaf’s work on
leaf-copied = { $count ->
    [0] No work is copied on to leaf { $leaf }.
    [one] { $count } piece of work is copied on to leaf { $leaf }.
   *[other] { $count } pieces of work are copied on to leaf { $leaf }.
}
leaf-left = { $count ->
    [one] { $count } can’t follow
   *[other] { $count } can’t follow
}: { $why }
season-leaf = Leaf { $leaf }
years-title = Leaf by leaf
year-crop = { $crop } t/ha
year-crop-about = ≈ { $crop } t/ha
year-no-crop = no crop
charts-open = Charts …
charts-title = Leaf by leaf, by a calibrated model
charts-what = The model knows no frost, no disease, no weather, and takes pollination as good. Few of its values are measured. So each crop has a range: in eight of ten tries with other values the crop lies in it, and what the usual values give is counted in. The stroke in the drawing shows it, “from” and “to” in the table say it.
charts-when = Crop and fruit are told for the harvest, cordon and uprights as they are at harvest, ages before the winter’s work.
charts-light-waits = The light of each leaf is being worked out …
charts-close = Close
year-range = { $low } to { $high } t/ha
year-fill = { $share } filled
year-oldest = { $age ->
    [0] no old wood
    [one] oldest { $age } year
   *[other] oldest { $age } years
}
year-no-work = no work
year-untrained = nobody trains it: its crop is told too high
# What stands at the head of the strip's lines, and whole where the pointer rests.
year-head-crop = crop
year-head-range = crop lies in
year-head-fill = cordon at harvest
year-head-oldest = wood in winter
year-head-work = work of the leaf
year-when-crop = { $told } at harvest, on the whole row’s ground; the early-summer work is done
year-when-range = In eight of ten tries with other values of the model, and with the usual ones, the crop lies in this
year-when-fill = How much of the cordon is filled at harvest, before the after-harvest work
year-when-oldest = { $told }: the oldest upright in winter, before the dormant work
year-old-until = { $told }, more than the { $limit } that are the limit; as trained here the wood keeps to it from leaf { $from } on
year-old = { $told }, more than the { $limit } that are the limit; as trained here the wood does not keep to it up to leaf { $last }
year-doubt = { $told }. { $why }
doubt-untrained = Nobody trains the row in this leaf. Shade harms no fruit in the model, so a row left alone bears more in it than it would outdoors: do not go by this crop.
doubt-unfilled = The cordon is not filled. What stands or hangs elsewhere bears in the model as if it stood in the wall: the crop is told too high.
year-work = { $planned ->
    [planned] planned
    [part] part planned
   *[usual] usual
}: { $work }
year-piece = { $kind ->
    [plant] { $count } planted
    [remove_tree] { $count } grubbed out
    [replace_tree] { $count } replaced
    [lay] { $count } laid
    [stand] { $count } stood up
    [cut_back] { $count } cut back
    [cut_to_buds] { $count } cut to buds
    [stub] { $count } stubbed
    [remove] { $count } removed
    [thin] { $count } thinned
    [rub_out] { $count } rubbed out
    [keep_bud] { $count } buds kept
    [notch] { $count } notched
    [move_bud] { $count } buds moved
    [take_laterals] laterals off { $count }
    [tip] { $count } tipped
    [hold_height] { $count } at height
   *[wire] { $count } on wires
}
# In the card, where all of it has no room.
year-short = { $work }{ $more ->
    [0] {""}
   *[other] {" "}+{ $more }
}
tip-slide = Length that comes off
tip-acts = Acts on the harvest of leaf { $leaf }, not on the coming one: { $length } of length, { $sites } of this growth’s sites.
tip-acts-crop = Acts on the harvest of leaf { $leaf }, not on the coming one: { $length } of length, { $sites } of this growth’s sites, about { $crop } of what this shoot bears then.
year-stands = ○ usual work
step-stand-again = letting the usual work stand again
step-usual-work = letting the usual work stand
stand-again = Give this time back to the rules
usual-work = Have the rules do the work where none is planned
window-dormant = Dormant
window-bud-swell = Bud swell
window-early-summer = Early summer
window-after-harvest = After harvest
now-count = { $count ->
    [one] { $count } finding to fix now
   *[other] { $count } findings to fix now
}

wall-label = The row as a wall
keys-title = Keys
keys-presenting = While presenting: { $does }
keys-pointer = Shift with the keys that move or bend works in small steps. Ctrl and the wheel, or two fingers, change the size at the pointer; Shift and the wheel moves along the row.
key-ctrl = Ctrl
key-shift = Shift
key-alt = Alt
key-left = Left
key-right = Right
key-up = Up
key-down = Down
key-delete = Delete
key-backspace = Backspace
key-enter = Enter
key-home = Home
key-end = End
key-page-up = Page up
key-page-down = Page down
key-escape = Escape
action-save = Save the plan: into its file where it has one, else as a download
action-next = Choose the next shoot
action-previous = Choose the shoot before
action-to-card = Go to the actions of what is chosen
action-let-go = Close the card; again, let go of what is chosen
action-raise = Raise the end of the chosen shoot
action-lower = Lower the end of the chosen shoot
action-forward = Move the chosen kept bud on along its wood
action-back = Move the chosen kept bud back along its wood
action-bud = Keep a bud on the chosen cordon; notch older wood for it
action-upright = Record an upright on the chosen cordon
band-label = The cordon wire: filled, bare and overlapping
band-name = Cordon
band-filled = filled
band-bare = bare
band-twice = overlap
view-on = On along the row
view-back = Back along the row
row-start = To the row’s beginning
row-end = To the row’s end
strip-label = The whole row; what is in sight is framed
strip-how = Press or drag to go there; ▲ fix now, ◆ fix soon
strip-seen = In sight: { $from } to { $to }
to-number = Go to the tree of a number
to-number-none = There is no tree { $tree } in this row.
fit-row = Whole row
fit-height = Full height
zoom-in = Zoom in
zoom-out = Zoom out
zoom-how = Also Ctrl with the wheel, or two fingers
stretch-bare = { $length } bare
stretch-twice = { $length } overlap
ghost-bud = keep a bud at { $place }
ghost-notch = notch above a bud at { $place }

findings-title = { $count ->
    [0] Nothing to do now
    [one] What to do now: { $count } matter
   *[other] What to do now: { $count } matters
}
left-title = { $count ->
    [one] Left for this year: { $count } matter
   *[other] Left for this year: { $count } matters
}
matter-each = { $count ->
    [one] One finding
   *[other] { $count } findings
}
matter-more = { $count ->
    [one] One more
   *[other] { $count } more
}
# Which of its findings is shown on the wall.
matter-at = { $at } of { $count }
matter-fewer = Hide its findings
leave = Leave it…
leave-why = Why it is left this year
leave-do = Leave it this year
leave-not = Don’t leave it
take-up = Take it up again
step-leave = leaving a matter for this year
step-take-up = taking up what was left
said-left = Left for this year; it comes back in the next leaf, and sooner where it changes
findings-no-light = Light not judged.
findings-judge-light = Judge it too
findings-hidden = { $count ->
    [one] One more is not listed
   *[other] { $count } more are not listed
}
remedies-other = { $count ->
    [one] another way
   *[other] { $count } other ways
}
tried-crop = Crop to leaf { $leaf }: { $now } → { $then } t/ha
mend-all = Apply all { $count } remedies
mend-some = { $remedies ->
    [one] Apply one remedy
   *[other] Apply { $remedies } remedies
}: for { $count } of { $of } findings
remedy-of-some = For { $count } of { $of }: { $remedy }
stuck-graver = All that was tried makes something graver, or nothing better
stuck-graver-by = All that was tried makes something graver, or nothing better; the first would bring: { $finding }
stuck-waits = Offered once what is offered elsewhere is done
stuck-planned = The work planned at this time mends it
stuck-none = No single piece of work is known that mends it as the row stands
stuck-other-time = What would mend it belongs to another time of the year
stuck-held = What would mend it takes away work that is planned there already
stuck-weighed = It can be mended, by a remedy that stands with it; seen along the row that costs more than it brings
stuck-untaken = A piece of the draft mends it that is not taken
stuck-note = No work goes with it
said-mended = { $count ->
    [one] Done at one place
   *[other] Done at { $count } places
}
said-remedy-waits = Tried first; done if it does no harm
said-remedy-withdrawn = Not done: tried on the row as it is now, it does harm or more than was said
step-remedies = fixing findings
step-draft = the draft
severity-now = Fix now
severity-soon = Fix soon
severity-note = For information
status-published = Published
status-derived = Derived
status-practice = Common practice, no source
status-memory = From memory
status-assumed = Our assumption

figures-title = This row in leaf { $leaf }
# The strip tells of the harvest: this says that it is another time.
figures-when = { $window }, { $view ->
    [before] before its work
   *[after] after its work
}
figure-fill = Cordon filled
figure-bare = Bare wire
figure-twice = Overlap
figure-uprights = Uprights at this time
figure-apart = Average spacing
figure-uneven = Spacing varies by
asked-fill = all of it by the end of leaf { $leaf }
asked-trees = { $trees ->
    [one] on one tree
   *[other] on { $trees } trees
}
asked-apart = { $target } is the aim
asked-uneven = 0 % is even
value = { $value }

parts-title = Trees and shoots as a list
parts-tree = Tree

tree-lost = Dead or missing
tree-facts = Foot at { $place }, planted at { $angle }, { $uprights ->
    [one] one upright
   *[other] { $uprights } uprights
}
bud-facts = Kept, not grown yet
notch-facts = Notched, not grown yet: about half grow in wood of two seasons, a quarter in older
shoot-facts = { $length } long, { $thickness } thick, { $age ->
    [0] this season's wood
    [1] one-year wood
   *[other] { $age }-year wood
}
act-stub = Stub
act-lay-left = Lay to the left
act-lay-right = Lay to the right
act-lower = Lower to the wire
act-stand = Stand up
act-remove = Remove
act-take-back = Take back
caution-bend = Forks split first: bend slowly. Tensioned wire can whip: eye protection, gloves, out of its line.
caution-notch = Sharp blade: cut away from yourself, and clean it between trees.
caution-cut = Prune in dry weather and clean the saw between trees; leave a stub near the trunk, no flush cut. Saws and ladders: three points of contact, nobody below.

step-bend = bending
step-lay = laying
step-stand = standing up
step-stub = stubbing
step-cut = cutting back
step-remove = removing
step-keep-bud = keeping a bud
step-notch = notching above a bud
step-take-back = taking work back
step-remedy = fixing a finding
step-count = counting buds on spurs
step-crew = setting the crew’s times or people
step-told = telling what is done in the row
step-taken = taking ticks from a file
step-name = naming the row
said-undone = Undone: { $step }
said-redone = Done again: { $step }
said-nothing-to-undo = Nothing to undo
said-nothing-to-redo = Nothing to redo
notice-close = Close this message
trapped-title = The program has stopped at a fault of its own
trapped-what = Nothing more is saved from here, so that nothing is spoilt. The row as it was saved last, half a second before at most, is on this device; a row that could not be saved is in the file.
trapped-open = Open the row again
trapped-save = Save the plan as a file
trapped-start = Begin at the start page
newer-build = A newer version of the program is here.
newer-build-load = Load it
newer-build-later = Later

import-title = Measured row ‘{ $row }’
import-taken = { $lines ->
    [one] One line
   *[other] { $lines } lines
} understood, { $trees ->
    [one] one tree
   *[other] { $trees } trees
}{ $left ->
    [0] {""}
    [one] , one line left out
   *[other] , { $left } lines left out
}.
import-note = { $trees ->
    [one] A measured row of one tree.
   *[other] A measured row of { $trees } trees.
}
import-slips = Look at these again
import-take = Take { $value }
import-take-back = As it stands there
import-take-all = Take all { $count } as likely meant
import-cut-off = ↑ to { $height }
import-leaf-follows = Oldest wood: { $age ->
    [one] one season
   *[other] { $age } seasons
}; { $grew ->
    [0] nothing
    [one] one shoot
   *[other] { $grew } shoots
} grew in leaf { $last }{ $taken ->
    [0] {""}
    [one] {" "}(one of them for want of a season)
   *[other] {" "}({ $taken } of them for want of a season)
}
import-word = ‘{ $word }’ under { $column }, in { $count ->
    [one] one line
   *[other] { $count } lines
}, is
import-word-open = not said: left out
import-word-left = left, toward the start of the row
import-word-right = right, toward its end
import-word-side = from the side, toward an alley
import-word-under = from underneath
import-word-top = from the top
import-word-stem = a stem
import-word-leader = a leader
import-word-upright = an upright
import-word-shoot = a shoot
import-word-bud = a bud
import-word-stub = a stub
import-word-lost = a lost tree
import-bad = { $count ->
    [one] One line is left out:
   *[other] { $count } lines are left out:
}
import-reading = { $lines ->
    [0] Reading …
   *[other] { $share } of { $lines } lines read
}
import-lost = { $file } could not be read to its end. Nothing was changed.
import-drawing = The row as it comes in
import-asks = What the table does not say
import-range = { $low } to { $high }
import-leaf = Coming leaf
import-wires = Wires, from the lowest up
import-covering = Wires are covered with
import-covering-bare = nothing: bare steel
import-covering-plastic = plastic
import-wall-height = Height of the wall
import-lengths = One length of older wood is
import-by-season = one season’s
import-in-all = all its seasons’ together: shared out as shoots usually grow (assumed)
import-tipped = Had last year’s growth been tipped? Nothing recorded says.
import-tipped-unknown = not known
import-tipped-yes = yes
import-tipped-no = no
import-use = Use this row
import-leave = Cancel
refusal-table-plan = Its plan must have { $high } MB at most; it would have { $value }

file-too-large = { $file } is too large; it must have 32 MB at most. Nothing was changed.
files-first = { $file } was opened: one row at a time. { $others ->
    [one] The other file was
   *[other] The other { $others } files were
} not looked at.
file-unreadable = { $file } could not be read. Nothing was changed.
file-refused = { $file } was not opened: { $why }. Nothing was changed.
download-refused = The browser did not take the file.
part-missing = This part of the page did not come. Is there a connection?
part-again = Ask again
in-place-refused = The file could not be written, and holds what it held before. Save the plan again, into another file.
save-failing = The last changes could not be saved on this device, which may be full, held by another tab, or not allowed to keep anything. It is tried again and again; meanwhile save the plan as a file.
save-again = Saved on this device again. If it was full, save the plan as a file too: a browser may lose all that it keeps there.
save-lost = The last changes of the row that was open before could not be saved on this device.
save-elsewhere = This row is open in another tab, which saves it. What you change here is not saved as long as it is open there.
save-taken-over = What else had this row open has let go of it: from now on it is saved here.
save-apart = The other tab has changed this row too. What is here is kept as a row of its own, beside that one.
save-leave-sure = The last changes are not saved on this device. Leave them?
row-copy = { $name } (from another tab)

refusal-bud-pressed = A bud at { $value } is not kept: the upright, bud or stub at { $near } is nearer than { $low }, half the least space
refusal-bud-off-wood = No wood lies there: a bud is kept on a laid cordon.

before-after = Before or after the work of this time
work-before = before the work
work-after = after it
sheet-time = { $window }, leaf { $leaf }: { $view ->
    [before] before its { $count } pieces of work
   *[after] { $count ->
        [0] no work planned
        [one] after one piece of work
       *[other] after { $count } pieces of work
    }
}.
work-line = { $part }: { $work }
work-at = { $work }, at { $x }
work-line-at = { $part }, at { $x }: { $work }
work-line-there = { $part }: { $work }, at { $x }
work-rest = { $count ->
    [one] List one more
   *[other] List { $count } more
}
card-work = { $count ->
    [one] One piece of work here
   *[other] { $count } pieces of work here
}
card-found = To do here
card-more = { $count ->
    [one] and one more
   *[other] and { $count } more
}
work-signs = Signs
colour-by = Colour by
colour-dark = Light has to be on to be seen here.
work-aside = Work is put aside while the record is corrected
colour-light-on = Turn it on
work-title = { $count ->
    [0] No work at this time yet
    [one] One piece of work at this time
   *[other] { $count } pieces of work at this time
}
# Of the work of a window that nobody planned.
work-told-done = ✓ { $work } – done in the row
work-told-skipped = – { $work } – skipped in the row
work-stands = Stands by rule, not planned.
save-picture = Save the drawing as a picture (PNG)

# Ways to a row that begin with nothing.

way-walk = Walk the row with a tape
way-walk-help = One question at a time, made for a telephone in a cold hand. Lay one tape along the whole row, from the first tree on; every place is read off it. Nothing is lost if the page is closed half-way.
way-walk-do = Walk a row …
way-walk-go = Begin at tree 1
way-walk-on = Go on at tree { $tree }
way-walk-open = Go on: the row is complete
way-walk-drop = Give the walk up
way-walk-drop-sure = Give up the half-finished walk? What was measured is lost.
way-make = Make a row from a few figures
way-make-help = A plausible row, for a class or a first look: nothing in it is measured. The same figures make the same row again; chance beginning from another number makes another one.
way-make-do = Make a row …
way-make-go = Make the row
way-empty = Begin with an empty row
way-empty-help = Wires and a length, and no trees yet. Put the trees in on the wall.
way-empty-do = An empty row …
way-empty-go = Open the empty row
entry-leave = Cancel

made-lengths = Lengths in
made-lengths-metres = metres
made-lengths-feet = feet and inches
made-leaders = Each tree has
made-leaders-one = one leader
made-leaders-two = two leaders, one each way
made-toward = Trees lean, and a single leader goes
made-toward-left = to the left
made-toward-right = to the right

no-trees = No trees yet
no-trees-help = Press the wall where the first tree stands, or write its place along the row.
no-trees-place = Place
no-trees-do = Put a tree there
step-found-tree = putting a tree in

walk-which = Walk to
walk-every = every tree
walk-sample = ten trees, as a sample
walk-heights = Ask how high each upright stands
walk-laterals = Ask how many side branches each upright has
walk-asked-no = no
walk-asked-yes = yes
walk-tape = The tape is read in
walk-progress = { $done ->
    [0] No tree done yet
    [one] One tree done
   *[other] { $done } trees done
}
walk-progress-sample = { $done } of { $of } sampled trees done. Walk to trees { $trees }
walk-leave = Stop for now
walk-ask-foot = Where does tree { $tree } stand?
walk-ask-way = Tree { $tree }: which way does its leader go?
walk-ask-end = Tree { $tree }: where does the leader to the { $toward ->
    [left] left
   *[right] right
} end?
walk-ask-leader = Tree { $tree }: how thick is the leader to the { $toward ->
    [left] left
   *[right] right
}, at its base?
walk-ask-upright = Tree { $tree }: where is upright { $number }?
walk-ask-thickness = Tree { $tree }: how thick is upright { $number }, at its base?
walk-ask-height = Tree { $tree }: how high above the ground is the tip of upright { $number }?
walk-ask-laterals = Tree { $tree }: how many side branches has upright { $number }?
walk-ask-nothing = The row is complete
walk-next = Next
walk-usual = Yes, at { $place }
walk-as-last = The same as the last: { $value }
walk-next-thickness = Next: its thickness
walk-next-upright = Next upright
walk-next-tree = No more uprights: next tree
walk-last-tree = That was the last tree
walk-same-as = The same as tree { $tree }
walk-missing = The tree is missing
walk-unmeasured = Not measured
walk-end = There are no more trees
walk-left-way = ← To the left: the numbers fall
walk-right-way = To the right: the numbers rise →
walk-both-ways = Both ways
walk-back = Back
walk-left = There is still a number in the field: take it with “{ $button }”, or clear it
walk-doubt = { $what ->
    [leader] A leader { $value } thick is unusual; { $low } to { $high } is usual
    [thickness] An upright { $value } thick at its base is unusual; { $low } to { $high } is usual
    [height] An upright { $value } high is unusual; { $low } to { $high } is usual
    [laterals] { $value } side branches on an upright are unusual; { $low } to { $high } are usual
    [foot] Tree { $tree } would stand { $value } on from the one before it; { $low } is expected
    [end] A leader that reaches { $value } is unusual; { $low } to { $high } is usual
    [length] A length of { $value } is unusual; { $low } to { $high } is usual
   *[back] { $value } goes back along the tape: there is an upright at { $low } already
}.{ $meant ->
    [none] {""}
   *[other] {" "}Did you mean { $meant }?
}
walk-doubt-seasons = { $before } + { $next }
walk-doubt-both = { $value } ({ $centimetres } cm)
walk-doubt-meant = Yes, { $meant }
walk-doubt-stands = { $meant ->
    [none] Take { $value } as it stands
   *[other] No, { $value } as it stands
}
walk-doubt-mend = Correct it
walk-open = Open the row
# Light

light-label = Which light is shown
light-toggle = Light
light-toggle-help = Shows how much light reaches each part of the wall and what falls through
light-when = of
light-season = the growing season
light-day = one day
light-day-of = day
light-date = { $day } { $month }
light-weather-label = under
light-weather-clear = a clear sky
light-weather-usual = its usual clouds
light-one-hour = one hour
light-hour-label = Hour of solar time
light-hour = { $time } by the sun
light-all-day = all hours
light-sun = Sun { $height } high, { $off } off the line of the row
light-night = The sun is down
light-leaves-label = leaves
light-leaves = { $share } out
month-1 = January
month-2 = February
month-3 = March
month-4 = April
month-5 = May
month-6 = June
month-7 = July
month-8 = August
month-9 = September
month-10 = October
month-11 = November
month-12 = December
legend-label = Colours of the map, from no light to all the light above the row
legend-name = Light on the wall
sky-name = Light that falls through, share of the open sky
probe-label = Light at a place: arrow keys move it
probe-none = Point at the wall, or move here with the arrow keys
probe-both = { $light } of the light at { $x }, { $z } high; { $falls } falls through
probe-falls = { $falls } falls through at { $x }
probe-off = No light is worked out at { $x }
light-figures-title = Light
about-value = ≈ { $value }
figure-light-caught = Light caught
asked-light = { $target } or more is usual for grown apple walls
figure-light-filled = beside this wall filled as usual
asked-light-filled = which would catch { $filled }; a grown wall needs { $least } or more
figure-light-parts = direct, diffuse
light-parts = { $beam }, { $sky }
figure-zone-mean = In the renewal zone
asked-zone = to { $height } above the cordon; stubs need { $least } or more
figure-zone-least = at its darkest
figure-under-30 = Under 30 %
figure-under-50 = Under 50 %
of-whole-wall = of the leafy wall
of-wall-in-view = of the leafy wall in view
figure-leaf-area-index = Leaf area index
asked-leaf-area-index = leaf area over ground area
light-assumed = At { $latitude }° { $side ->
    [south] south
   *[north] north
}{ $place ->
    [no] {" "}(taken, since no place is given)
   *[yes] {""}
}, row bearing { $bearing }{ $way ->
    [no] {" "}(taken)
   *[yes] {""}
}, rows { $spacing } apart{ $rows ->
    [no] {" "}(taken)
   *[yes] {""}
}, wall { $thickness } thick. { $weather ->
    [usual] { $sky } of the light from the sky (Page 1961, half of the hours sunny)
   *[clear] Clear sky
}, black leaves; leaf area by the model of growth, mostly assumed.
anchors-title = Published figures beside this model
anchor-caught-60 = Caught by a planar cherry wall, N–S, early July (ASABE paper, 2012)
anchor-caught-69 = Caught in another trial (Agronomy 2022, 12:643)
anchor-base-28 = Light at 0.4 m in a yielding wall (IHC 2022)
anchor-model = { $low } to { $high }
anchor-published = { $published } published, { $way ->
    [more] { $off } of the light more in the model
   *[less] { $off } of the light less in the model
}
anchors-why = The model’s walls are 3.0 to 3.3 m high in rows 2.8 m apart, at a leaf area index of 2.0 to 2.5, which is our assumption: the trials’ own is not known here. Wood and fruit catch light too, which the model leaves out; leaves are not black, and pass some of it down to the base.
beside-title = A flat wall beside a deep canopy
beside-about = This row’s own uprights, beside a bush row with as much leaf per ground area at every height, but spread evenly along the row and through its depth. Stubbing one upright opens its own place down to the stub; the same leaf area off a bush is one branch among others in a metre of the row, and little opens.
beside-depth = Depth of the canopy
beside-waiting = Being worked out …
beside-leafless = There are no leaves to compare.
beside-flat = Flat wall
beside-deep = Deep canopy
beside-alike = Kept alike
beside-alike-alley = the alley left to drive
beside-alike-rows = the distance between rows
beside-thick = Thickness
beside-rows = Rows apart
beside-alley = Left to drive
beside-plane = Light in the renewal zone, in the middle
beside-base = through the whole thickness
beside-lead = Light at the base where a renewal cut took off one upright, or as much leaf
beside-caught = Light caught
beside-says = { $than ->
    [darker] The deep canopy is darker at its base: { $deep } of the light, against { $flat }.
    [lighter] The deep canopy is lighter at its base: { $deep } of the light, against { $flat }.
   *[alike] Their bases are alike: { $deep } of the light, against { $flat }.
}
beside-why = With its rows as far apart as the flat wall’s it has spread into the alley, which shrinks to { $alley }, and its leaves hang thinner.
beside-same = Leaf area index { $index } in both; { $length } of the row compared.
save-in-place = Save into a file, the same again with Ctrl S
saved-in-place = Saved into its file
# Fields.

field-no-length = This is no length: “{ $text }”; write it as 1.20 m, 120 cm or 3 ft 11 in
field-no-thickness = This is no thickness: “{ $text }”; write it as 12 mm or 0.5 in
field-no-count = This is no whole number: “{ $text }”
field-no-number = This is no number: “{ $text }”
field-decimal-mark = Decimals must stand behind “{ $mark }”, not as in “{ $text }”
field-no-list = Write places with a semicolon between them: 0 m; 7 m; 14 m
ask-do = Do it

# Works that ask for a number, and work on a whole tree.

act-cut = Cut back to
act-cut-to-buds = Cut to buds
act-tip = Tip by
act-hold-height = Hold at height
act-take-laterals = Remove laterals
act-rub-out = Rub out side and underside buds
act-thin = Keep { $part }, remove the others
act-move-bud = Move along to
act-remove-tree = Grub out
act-replace-tree = Replace with stock
act-plant = Plant stock here
step-laterals = removing laterals
step-tip = tipping
step-height = holding a height
step-rub-out = rubbing buds out
step-thin = thinning returns
step-move-bud = moving a bud
step-remove-tree = grubbing a tree out
step-replace-tree = replacing a tree
step-plant = planting a tree

# Correcting the record.

record-switch = Correct the record
record-title = Correcting the record
record-what = This is the row as found. What is changed here was measured wrongly: it is no work for the crew.
record-along = { $at } along its parent
record-shared = Shared out over its seasons as before: { $lengths }. So typed, each is taken as it stands
record-as-found = As found
record-add-tree-at = Add a tree at
record-done = Done correcting
record-tree-here = Add a tree here, at { $place }
record-upright-here = Record an upright here, at { $place }
record-drop-shoot = Remove from the record
record-to-tree = To tree { $tree }
record-diseased = Mark as diseased: worked last
record-sound = Take back the mark as diseased
record-drop-tree = Remove the tree from the record
record-lost = Mark as lost
record-standing = It stands
step-correct-leaf = correcting the coming leaf
step-correct = correcting the record

# Limits and site.

limits-and-site = Limits and site
limits-title = Limits
limits-what = Each finding names the limit that it goes by. A limit that is common practice or from memory is a beginning: set what holds in your orchard.
limits-reset-all = All back to their defaults
limit-range = { $low } to { $high }
limit-reset-none = Back to none
limit-reset = Back to { $value }
limit-source = { $status }: { $source }
site-title = Site and trellis
setting-posts = Posts at
setting-posts-every = Posts evenly, every
step-limit = setting a limit
step-assumed = setting a rule or an assumption
step-limits-reset = setting all limits back
step-setting = setting the site

# Wires.

wires-title = Wires
wires-work = Changes here become work for the chosen time.
wires-record = The record is being corrected: changes here are to the wires as found.
wire-number = Wire { $number }
wire-add = Stretch another, plastic-covered, at
wire-is-bare = bare steel
wire-is-plastic = plastic-covered
wire-cover = Cover with plastic
wire-bare = Lay bare
wire-down = Take down
step-wires = wire work
caution-wire = Tensioned wire can whip: eye protection, gloves, stand clear of its line; let the tension off before it is cut or moved.
caution-trellis = Loads on posts and anchors are not worked out here: they need the local codes and a qualified person.

# Work on many at once.

many-title = Many at once
many-whom = On
many-row = the whole row
many-numbers = trees from one number to another
many-chosen = the chosen tree
many-from = from tree
many-to = to tree
many-what = do
many-count = { $shoots ->
    [0] There is nothing to do on them
    [one] One shoot on one tree
   *[other] { $shoots } shoots on { $trees ->
        [one] one tree
       *[other] { $trees } trees
    }
}
many-not-now = The record is being corrected, which is no work; end that first.
sweep-lay = lay stems that still stand along the wire
sweep-laterals = remove the laterals
sweep-tip = tip by
sweep-height = hold at height
sweep-rub-out = rub out side and underside buds
sweep-side-shoots = remove side and underside shoots
sweep-straighten = stand leaning uprights up
sweep-largest = of each tree stub so many of the thickest uprights
step-many = work on many at once
said-many = { $shoots ->
    [one] Done on one shoot; undo takes it back
   *[other] Done on { $shoots } shoots; undo takes it back at once
}

# A draft of a time's whole work.
hand-out-do = Hand out the leaf’s work
hand-out-what = The work of the whole leaf as walks of one job each, with minutes, tools and cautions, and their sheets to print.
order-do = Order and materials
report-do = Report for a client
report-what = What was found, what is advised, why and by when, on paper or as PDF; every change by tree
order-what-for = Trees, wires, posts and ties of the finished wall, what the wires bear, delivered trees, the planting sheet
step-delivered = Delivered trees in the record
draft-do = Draft this time’s work
draft-what = Proposes the whole row’s work of this time, each piece with its reason. Nothing is done before you take it.
draft-waits = Going along the row …
draft-none = Nothing to propose: what stands here is a whole time’s work
draft-title = { $count ->
    [one] Draft: one piece of work
   *[other] Draft: { $count } pieces of work
}
draft-kinds = What is taken
draft-kind-with = { $kind } (with them { $with })
draft-plant = plant
draft-other = other work
draft-tree = Where
draft-trees-all = on all trees
draft-trees-some = on some, piece by piece
draft-trees-but = on all others, not on this tree
draft-take = { $count ->
    [one] Take this piece of work
   *[other] Take { $count } pieces of work
}
draft-left-out = { $count ->
    [one] One piece of work is left out: what it mends comes only with what is not taken
   *[other] { $count } pieces of work are left out: what they mend comes only with what is not taken
}
draft-cautions = Cautions for this work
draft-open = Not mended here: { $count ->
    [one] one matter
   *[other] { $count } matters
}
draft-untipped = { $trees ->
    [one] One tree that is to be tipped needs no tips once this is done
   *[other] { $trees } trees that are to be tipped need no tips once this is done
}: tipping ends with a tree’s first stubs or the wall’s height, and what comes off is not tipped (common practice, no source)
draft-no-tips = No tips: renewal has begun, and both take another quarter to half of the crop (by a calibrated model)
draft-close = Put it away
draft-whole = What it costs and brings
draft-of-whole = What the draft brings with all of it taken:
draft-more = Cost and gain
draft-cost = Costs { $cuts ->
    [0] no cut
    [one] one cut
   *[other] { $cuts } cuts
}{ $ties ->
    [0] {""}
    [one] , one shoot laid or tied
   *[other] , { $ties } shoots laid or tied
}{ $buds ->
    [0] {""}
    [one] , one bud
   *[other] , { $buds } buds
}{ $wires ->
    [0] {""}
    [one] , one wire
   *[other] , { $wires } wires
}; some { $minutes } min for one person (from memory)
draft-next = The next best: { $leaves ->
    [yes] leave it as it is
   *[no] { $said }
}; worse by as much as { $wire ->
    [yes] { $worse } of bare wire
   *[no] { $worse } distances between uprights that are off by their whole length
}
draft-gain-waits = What it brings over five leaves is being worked out …
draft-gain-trees = { $count ->
    [one] tree { $trees }
   *[other] { $more ->
        [yes] { $count } trees ({ $trees } …)
       *[no] trees { $trees }
    }
}
draft-gain-brief = Five leaves bear { $after } t/ha ({ $before } without), the coming harvest { $then } ({ $else })
draft-gain-crop = { $piece ->
    [yes] Fruit of { $trees } over five leaves: { $after } kg with it, { $before } kg without (a difference of { $low } to { $high } kg, by a calibrated model)
   *[no] Crop of five leaves: { $after } t/ha with it, { $before } t/ha without (a difference of { $low } to { $high } t/ha, by a calibrated model)
}
draft-gain-coming = { $piece ->
    [yes] Of that in the coming harvest: { $after } kg with it, { $before } kg without
   *[no] Of that in the coming harvest: { $after } t/ha with it, { $before } t/ha without
}
draft-gain-fill = Cordon filled after them: { $same ->
    [yes] { $after }, as without it
   *[no] { $after }, without it { $before }
}
draft-gain-spacing = Distances between uprights vary by { $same ->
    [yes] { $after }, as without it
   *[no] { $after }, without it by { $before }
}
draft-gain-light = Of the season’s light the wall catches { $same ->
    [yes] { $after }, as without it
   *[no] { $after }, without it { $before }
}
draft-gain-oldest = Oldest wood in these winters: { $same ->
    [yes] { $after } seasons, as without it
   *[no] { $after } seasons, without it { $before }
}
weights-title = What is weighed against what
weights-what = The ways to fill the wire are weighed in bare wire, the places of buds in distances that are off by as much as is aimed at. Set others, and the draft is made anew.
weights-source = judged, not measured
weight-overlap-each = A doubled stretch: one cut more
weight-overlap = A length of doubled wire
weight-upright = An upright that is laid
weight-wait = A length that stays bare a season more
weight-spacing = A distance between uprights, off by as much as is aimed at
weight-bud = A bud to keep
weight-notch = A notch
weight-long-gap = A distance longer than is let pass
weight-long-gap-metre = A metre of it beyond that
said-drafted = { $count ->
    [one] One piece of work of the draft is in the plan. Undo takes it back.
   *[other] { $count } pieces of work of the draft are in the plan. Undo takes them back.
}

# Marks on the wall, as they are put and listed.
marks-title = Marks
marks-how = Notes, arrows, distances and outlined stretches. They ride along with the wood that they are put on, through the seasons, and stand on paper under their numbers.
marks-put = Put a mark
marks-none = Nothing is marked yet.
mark-where = Press the place on the wall.
mark-from = Press on the wall where it begins.
mark-to = Press on the wall where it ends.
mark-at-chosen = At what is chosen
mark-give-up = Give it up
mark-says = What it says
mark-says-maybe = What it says; may stay empty
mark-put = Put it there
mark-number = Mark { $number }: show it
mark-go = Show where it is
mark-change = Change what it says
mark-remove = Remove
step-mark = putting a mark
step-mark-text = changing what a mark says
step-mark-remove = removing a mark
