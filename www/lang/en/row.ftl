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

work-lay = laid along the wire to the { $toward ->
    [left] left
   *[right] right
}, rising { $rise }
work-stand = stood up, leaning { $lean }
work-cut = cut back to { $keep }
work-stub = cut to a stub of { $keep }
work-remove = taken off
work-keep-bud = bud kept { $at } along
finding-cordon-gap = { $where ->
    [between] Cordon bare for { $length } between trees { $left } and { $right }
    [within] Cordon bare for { $length } on tree { $left }
    [after] Cordon bare for { $length } after tree { $left }, to the end of the row
    [before] Cordon bare for { $length } before tree { $right }, at the start of the row
   *[alone] Cordon bare for { $length } from { $from } along the row
}
finding-cordon-overlap = { $where ->
    [between] Cordon covered twice for { $length }: trees { $left } and { $right } lie side by side
   *[within] Cordon covered twice for { $length } on tree { $left }
}
finding-cordon-fill-due = Cordon { $share } filled; { $asked } was due by the end of leaf { $due }. { $bare } is still bare
finding-uprights-too-close = { $distance } apart; at least { $least } is needed: { $left }, and { $right }
finding-uprights-too-far = { $bare ->
    [yes] { $distance } of cordon without an upright, besides what is bare; at most { $most }: from { $left } to { $right }
   *[no] { $distance } of cordon without an upright; at most { $most }: from { $left } to { $right }
}
finding-work-void = Planned work of leaf { $leaf } does nothing. { $why }

remedy-lower-leader = Lower to the wire: { $part }. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-lay-leader = Lay along the wire: { $part }. { $outcome ->
    [closed] It closes the bare stretch
   *[left] { $leaves } stays bare
}
remedy-fill-forward = Lay on along the wire: { $part }. { $outcome ->
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
   *[left] ; { $leaves } is still covered twice
}
remedy-stand-up = Stand up as an upright: { $part }. { $outcome ->
    [closed] Nothing is covered twice any more
   *[left] { $leaves } is still covered twice
}
remedy-take-off = { $where ->
    [between] Take off { $part }; its neighbours are then { $leaves } apart
   *[end] Take off { $part }
}
remedy-stand-free = Stand up as an upright: { $part }. The widest space left is { $leaves }
remedy-keep-buds = { $buds ->
    [one] Keep one bud between them; the widest space is then { $leaves }
   *[other] Keep { $buds } buds evenly between them; the widest space is then { $leaves }
}
