## plain: for whom, and what helps (common practice in class music)

adapt-first = Ask the pupil, and whoever knows the pupil best, before anything else. What helps one disturbs another.
adapt-untuned = No tuned instruments
adapt-untuned-none = This pack needs none: voices and untuned sounds carry every part. Show high and low with your hand.
adapt-untuned-what =
    { $parts } { $n ->
        [one] has
       *[other] have
    } notes. Take these instruments out of the class file and make the pack again: what your cupboard has, voices and body sounds then take over. Or sing the notes as they lie, high or low, and show their height with your hand.
adapt-part = “{ $name }”
adapt-group = group { $group }
adapt-calm = Pupils who bear noise badly
adapt-calm-what =
    { $gentle ->
        [yes] This pack has no sudden loud sounds: your class file asks for that.
       *[no] needs = ["no sudden loud sounds"] in the class file makes the whole pack gentler.
    }{ $loud ->
        [none] { "" }
       *[some] { " " }A seat far from { $groups }.
    } Tell them a bar ahead what comes. Ear defenders, a way out and a signal for “too much” agreed before. Jobs with less sound: beating time beside you, turning pages, recording{ $given ->
        [open] { "" }
       *[full] , “Listen” on page.html through headphones set low
    }.
adapt-hearing = Pupils who hear little or nothing
adapt-hearing-what =
    A seat where your hands, your face and a neighbour's beaters are seen, light on you and not behind you. Every cue has a gesture; the graphic score and page.html, Conduct, show the piece as it runs. { $low ->
        [none] A drum or a low bar can be felt with a hand on it.
       *[some] Low sounds can be felt: a hand on the instrument of { $parts }, or bare feet on a wooden floor.
    } The stop signal must be one to see.
adapt-seeing = Pupils who see little or nothing
adapt-seeing-what =
    --large-print sets every sheet at 18 points and up. { $given ->
        [full] Learn the part by ear: page.html, Hear, that group alone.
        [part] Learn what is given of the part by ear (page.html, Hear, that group alone), the rest from the group.
       *[open] Learn the part by ear from the group as it invents it.
    } A neighbour's touch on the shoulder, or a quiet word from you, one bar ahead and at the stop.{ $bars ->
        [yes] { " " }Take off the bars that are not played, and put a dot of raised tape on those that are.
       *[no] { "" }
    }{ $plots ->
        [yes] { " " }Describe the curves: each plot has words that a screen reader speaks.
       *[no] { "" }
    }
adapt-grip = Pupils who find grip or movement hard
adapt-grip-what =
    { $fetched ->
        [yes] Foam or tape makes a beater thick; a shaker can be strapped to the wrist, a drum stood within reach. One slow stroke a bar, in time, carries a part as well as many.
       *[no] One slow stroke a bar, in time, carries a part as well as many.
    }
adapt-english = Pupils new to English
adapt-english-what = The stages to cut out, the flow chart and the poster show each stage in a picture; --also pictures adds cards without a word to the print list. Teach the gestures and “stop” first. Let them tell the stages in their own language, then in ours.
