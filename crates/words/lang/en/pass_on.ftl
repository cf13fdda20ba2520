# A row that is passed on as a link, and why one can't be opened.

refusal-link-none = This is no link to a row: behind the # must stand { $accepted } and what follows
refusal-link-form = The link is of form { $value } and needs a newer program; this one reads form 1
refusal-link-cut = The link was cut off on its way: its end is missing. Copy it again, whole
refusal-link-damaged = The link is damaged: it is not as it was made. Have it sent again
refusal-link-long = A link must have { $high } characters at most, not { $value }: pass the plan on as a file
refusal-link-size = A link must hold { $high } bytes at most, not { $value }: pass the plan on as a file

pass-on-title = Pass the plan on
pass-on-carries = The link is the plan itself: the row as found, every scheme with its work, limits, marks, and what is left, counted and ticked. It stands behind the # of the address, so no server is sent it; but whoever has the link has all of it. Opened, it becomes a row of its own and touches no other.
pass-on-link = Link
pass-on-length = { $count ->
    [one] { $count } character
   *[other] { $count } characters
}
pass-on-copy = Copy the link
pass-on-copied = Copied.
pass-on-selected = The link is selected: copy it with Ctrl C.
pass-on-long = From { $high } characters on some programs cut a link off on its way: pass the plan on as a file.
pass-on-here = This page is a file on this device, and so the link opens here alone. Elsewhere, paste it where a table is pasted.
pass-on-code = Code for a telephone
pass-on-code-how = Hold the telephone’s camera on the code and open what it reads. The plan is then on the telephone too, and both can be changed without the other.
pass-on-code-long = The link is too long for a code, which holds { $most } characters.
pass-on-file = File
pass-on-file-how = A file takes a plan of any length, and opens wherever the page does.
pass-on-refused = The link is not opened, and nothing is changed. { $why }.

# A copy that comes back, and what it has otherwise.
answer-title = What comes back
answer-how = A copy that was changed elsewhere is compared with the one that was sent and with what stands here. Nothing changes before it is taken, and one undo takes it back.
answer-link = Paste its link
answer-file = Choose its file …
answer-count = { $count ->
    [one] They changed one thing.
   *[other] They changed { $count } things.
}
answer-rest = { $count ->
    [one] One change is left.
   *[other] { $count } changes are left.
}
answer-known = It is compared with the copy that was sent from this device.
answer-unknown = The copy that was sent is not on this device: all that differs from what stands here is listed as theirs.
answer-foreign = This looks like another row: neither its name nor the record of any tree is what stands here. Nothing of it is ticked.
answer-added = { $work }
answer-dropped = taken back, { $work }
answer-mark-changed = A mark changed, { $mark }; it was: { $was }
answer-same = It has nothing that does not stand here already.
answer-take = Take what is ticked
answer-leave = Leave it all
answer-taken = { $count ->
    [one] One change is taken.
   *[other] { $count } changes are taken.
}
answer-both = Changed here too: taken, theirs stands.
answer-here = Here: { $work }.
answer-when = leaf { $leaf }, { $window }
answer-no-work = no work
answer-work = { $when }{ $on ->
    [yes] , tree { $tree }
   *[no] {", "}wires
 }: { $work }
answer-name = The row’s name: { $name }
answer-note = What is said of the row: { $note }
answer-site = Where the row stands
answer-limits = Limits
answer-values = Values of the model
answer-crew = The crew’s times and people
answer-row = Wires, posts, ends or coming leaf of the row as found
answer-tree = The record of tree { $tree }
answer-tree-gone = Tree { $tree } is not in their record
answer-scheme = A scheme of theirs: { $scheme }
answer-scheme-gone = They removed the scheme { $scheme }
answer-rules = The rules of { $scheme }
answer-given-back = The usual work stands again in { $scheme }
answer-told = Ticks, notes and second looks from the row
answer-mark = A mark, { $mark }
answer-mark-gone = A mark removed, { $mark }
answer-left = What is left for this year
answer-buds = Buds counted on tree { $tree }
step-answer = taking what came back
answer-go = Go there
answer-where = A ◆ over the row stands where they changed something{ $count ->
    [0] .
    [one] : tree { $trees }.
   *[other] : trees { $trees }.
}
