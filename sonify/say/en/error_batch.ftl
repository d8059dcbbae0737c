## plain: what is wrong with a run of many packs, said to the person who can mend it
error_batch-classes-unread = { $folder } cannot be read ({ $why }); give a folder of class files with --classes
error_batch-no-classes = { $folder } holds no class files; put files like examples/well-stocked.toml there, one for each class
error_batch-same-folder = { $one } and { $other } would both go to the folder { $folder }; rename one of the two files
error_batch-is-a-pack = { $out } is a lesson pack itself; give another folder with --out, for several packs to lie in
error_batch-other-form = { $ledger } was written by another version of sonify, which this one cannot go on with; choose another place with --out
error_batch-in-use = { $out }: another run is making packs there; wait until it has ended, or choose another --out
error_batch-ledger-unwritten = { $ledger } cannot be written ({ $why }); choose another place with --out
error_batch-no-ledger = { $ledger } is no ledger of sonify’s, or it is damaged; move it elsewhere. Packs that lie there stay, and are made again
error_batch-index-in-the-way = { $index } was changed by hand, or is not sonify’s; nothing was made. Move it elsewhere, or give --replace
error_batch-worker-ended = the process that made it ended twice in the middle (status { $status }); there may be too little memory
error_batch-some-failed =
    { $failed ->
        [one] one pack could not be made
       *[other] { $failed } packs could not be made
    }:
    { $list }
    Mend what is wrong, and type the same command again: the others stay
error_batch-disk-full =
    { $left ->
        [one] one pack is
       *[other] { $left } packs are
    } not made, for the disk is nearly full; make room, and type the same command again: the others stay
error_batch-class-or-classes = give --class for one class or --classes for a folder of them, not both
error_batch-all-or-names = --all makes every ready-made scene: give no other SCENE with it
error_batch-no-scene = give a SCENE, or --all for every ready-made one
error_batch-out-missing = several packs need a folder to lie in: --out FOLDER
error_batch-scheduler-for-several = --scheduler is for several packs: give several scenes, --classes or --all with it
error_batch-needs-distributed = --scheduler needs one more library: pip install "sonify[cluster]"
error_batch-no-scheduler = no dask scheduler answers at { $address }; is it running there (dask scheduler), is its address typed as it tells it, such as tcp://192.168.1.5:8786, and is its library distributed the one that is here ({ $version })? Nothing was made
error_batch-scheduler-gone = the dask scheduler at { $address } no longer answers. The packs that are made stay; start it again, and type the same command: it goes on with the rest
error_batch-no-workers = the dask scheduler has no workers; start one on each machine (dask worker ADDRESS). Nothing was made
error_batch-workers-gone =
    the dask scheduler has had no workers for a minute, and { $left ->
        [one] one pack is
       *[other] { $left } packs are
    } not made. Those that are made stay; start workers again, and type the same command: it goes on with the rest
error_batch-differs = { $why }. Install the same versions on every machine (pip install "sonify[cluster]"), start its worker again, and type the same command: what is made stays
error_batch-workers-killed = the workers that made it died in the middle, one after the other; there may be too little memory
error_batch-lost = it was lost twice on its way ({ $why })
error_batch-damaged = it arrived damaged twice ({ $why })
