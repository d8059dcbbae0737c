## plain: how far a run of many packs is, and what became of it

batch-progress =
    { $done } of { $total } packs{ $failed ->
        [0] { "" }
       *[other] , { $failed } failed
    }{ $left ->
        [none] { "" }
       *[some] , about { $time } left
    }
batch-made =
    { $made ->
        [0] No pack was made
        [one] One pack was made
       *[other] { $made } packs were made
    }{ $standing ->
        [0] .
        [one] ; one stood there already.
       *[other] ; { $standing } stood there already.
    }
batch-index = Open { $index } in any browser: it leads to all of them.
batch-failed-at-once = { $pack }: { $why }
batch-stopped =
    sonify: stopped; { $made ->
        [0] no pack is finished
        [one] one pack is finished and stays
       *[other] { $made } packs are finished and stay
    }. The same command goes on with the rest
batch-our-fault = a fault of sonify’s own: { $error }
batch-differs =
    { $name ->
        [files] the files of sonify
        [letters] letters in names of files:
       *[other] { $name }
    } { $there } (here { $here })
batch-other-bytes = the worker { $worker } would make other bytes than this machine: { $list }
batch-no-toolkit = the worker { $worker } has no sonify
batch-left-out = { $why }. It makes no packs, the others go on; install the same versions there and start its worker again, and it helps
