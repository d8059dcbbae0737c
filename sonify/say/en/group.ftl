## plain: what was found out about the groups, and what to do

group-of-one = { $groups } groups for { $pupils } pupils: { $made } groups of one are made.
group-too-large = Groups of { $size } are hard to lead; { $least } to { $most } play well together.
group-too-small = Groups of { $size } are small; { $least } to { $most } support each other better.
group-write-groups = Write groups = { $best } in the class file.
group-write-groups-on-page = Set Groups to { $best } in “Your class”.
group-nothing-to-play = { $part } { HAS($part) } nothing to play: the piece has no { $stages }.
group-bring-the-stage = Change the conditions so that the stage comes, or give the part other stages.
group-no-stage-to-play = no part has a stage to play in
group-nobody-plays = no part plays in { $stages }
group-plays-on = { $part } { PLAYS($part) } on where the scene has nobody: { $because }.
group-add-the-stage = Add the stage to a part's `stages` in the scene.
group-add-the-stage-on-page = Let a part play in that stage, in “Who plays what”.
group-rests-in =
    { $part } { RESTS($part) } in { $stages }: { $fewer ->
        [yes] there are fewer groups than parts, and the group plays another.
       *[no] the group plays another.
    }
group-left-out =
    { $part } { IS($part) } left out: { $fewer ->
        [yes] there are fewer groups than parts, and every group is busy.
       *[no] every group is busy with another part.
    }
group-with-more = With { $groups } groups it would be heard.
group-not-there =
    { $part } { IS($part) } given to { $n ->
        [1] group
       *[other] groups
    } { $asked }, and the class has { $groups ->
        [1] one group
       *[other] { $groups } groups
    }.
group-not-with = Group { $group } cannot play { $part } as well: it is busy with { $others }.
group-rests-while = { $part } { RESTS($part) } while group { $group } plays { $others }.
group-another = Give the part to another group, or leave it to the program who plays what.
