## phrase: a number with its noun

count-bar =
    { $n ->
        [one] 1 bar
       *[other] { $n } bars
    }
count-player =
    { $n ->
        [one] 1 player
       *[other] { $n } players
    }
count-pupil =
    { $n ->
        [one] 1 pupil
       *[other] { $n } pupils
    }
count-group =
    { $n ->
        [one] 1 group
       *[other] { $n } groups
    }
count-minute =
    { $n ->
        [one] 1 minute
       *[other] { $n } minutes
    }
count-beat =
    { $n ->
        [one] 1 beat
       *[other] { $n } beats
    }
count-bars-at =
    { $n ->
        [one] bar { $first }
       *[other] bars { $first } to { $last }
    }
