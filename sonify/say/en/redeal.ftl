## plain: what to write on cards on the morning, and what to do

redeal-players = { $now } instead of { $before } players
redeal-seat =
    { $away ->
        [0] “{ $part }”: { $now } instead of { $before } on the { $instrument }
       *[other] “{ $part }”: { $now } instead of { $before } on the { $instrument }; put { $away } away
    }
redeal-cross-out =
    { $turns ->
        [yes] cross out one { $instrument }, and take turns
       *[no] cross out one { $instrument }
    }
redeal-write = write { $given } for { $lost } ({ $cards }). { $how }
redeal-clap = clap the rhythm for { $lost } ({ $cards }): its notes are lost today
redeal-spare = Nobody needs the broken { $instrument }: there is one to spare.
redeal-not-played = No group plays { $instrument }: no card changes.
redeal-goes-over = One pupil of group { $giver } plays with group { $group } today, whose cards stay as they are.
redeal-group = Group { $group }: { $lines }.
redeal-by-hand = Write on the cards:
redeal-nothing = No card changes.
redeal-print-nothing = Nothing to print: the music and all sheets stay as they are.
redeal-print = Print anew, of { $file }: { $pages }. All other sheets stay as they are.
redeal-print-out = Much to write for { $groups }: with --out and a new folder, the cards are made anew. All other sheets stay as they are.
redeal-print-whole = Much to write for { $groups }: make the pack anew for { $pupils } pupils, if there is time. All other sheets stay as they are.
