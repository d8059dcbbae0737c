## plain: who plays what, and what to bring

room-seat = { $what }, { $players }
room-seat-job = { $what }, { $players } ({ $job })
room-seat-of = { $part }: { $seat }
room-loud = { $part } (loud)
room-have = { $what } (of { $have })
room-too-few =
    { $have } { $name } would suit “{ $part }” too, but { $n ->
        [one] is
       *[other] are
    } not enough for its { $players } pupils.
room-left = { $have } { $name } would suit “{ $part }” too, but without it the groups are easier to tell apart.
room-swap = { $part }: { $given } for { $wanted } ({ $reason }).

## plain: where to sit

room-arc = Groups in an arc, in order, so that each one sees you and hears its neighbour.
room-loud-group = Group { $group } is loud ({ $what }): give it space, and keep ears away.
room-arc-alt = Groups 1 to { $n } in an arc from left to right, facing the conductor.
