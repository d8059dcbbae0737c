## plain: the steps of the lesson

minutes-start = Start
minutes-science = The science
minutes-rules = Hear the rules
minutes-sounds = Hear the sounds
minutes-rehearse = Rehearse
minutes-link = Did we make the link?
minutes-perform = Perform and listen
minutes-give-out = Give out instruments, agree the stop signal
minutes-take-places = Take places, agree the stop signal
minutes-explore = Explore in groups
minutes-remember = Remember

## plain: what happens in each step

minutes-start-what =
    { $story ->
        [told] Tell the story.
       *[none] Tell the class what they are going to play.
    } Ask what the class already thinks, and keep the answers for the end. { $given ->
        [full] Play a minute of the recording (soundscape.wav): what could it be?
        [part] Play a minute of the recording (soundscape.wav): what could it be? Tell the class that it has gaps: what belongs there, they will invent.
       *[open] The recording holds no part of a group: the class will invent them all.
    }
minutes-science-what = Pupils put the stages in order, with one of the two: { $order }, or { $chart }. Talk about each stage with the questions of this file and one or two of its plots; { $words } if minutes are left.
minutes-science-told = Pupils put the stages in order, with one of the two: { $order }, or { $chart }. Talk about each stage with the questions of this file; { $words } if minutes are left.
minutes-science-unordered = Talk about each of what was measured with the questions of this file and one or two of its plots, with { $order } or { $chart } beside them; { $words } if minutes are left.
minutes-rehearse-what = Stage by stage from the cue sheet (conductor.pdf, page 2), or page.html, Conduct: “Repeat stage”. Only that stage's groups, then joined up with “Next stage”.
minutes-link-what = Each pupil fills in { $sound }. Come back to the first answers. Put things away.
minutes-explore-what =
    Each group with its own card ({ $cards }): try its sounds, { $given ->
        [open] invent
       *[full] learn
    } its part, agree who plays what. Go round, ask why. { $given ->
        [full] A group that is stuck hears its own part: page.html, Hear, “Everyone plays” off.
        [part] A group that is stuck hears what is given of its part (page.html, Hear, “Everyone plays” off); where the box is empty, it tries two ideas and keeps the one that fits the science.
       *[open] A group that is stuck tries two ideas, and another group says which one fits the science.
    }
minutes-give-out-what =
    { $fetched ->
        [yes] One group at a time fetches its instruments and sits; beaters stay down.
       *[no] One group at a time goes to its place; hands rest, voices are silent.
    } Practise the stop signal until all are silent at once, twice.
minutes-perform-what =
    Play it through { $twice ->
        [yes] twice and record the second time
       *[no] once and record it
    }, conducting from the cue sheet or from page.html, Conduct. Listen to your recording ({ $lasts }). What changed at each stage?
minutes-remember-what = The stages in order, and who plays in each.
minutes-perform-once = Play it through once and record it.

# claims: quicker
minutes-compare-beats =
    page.html, Hear: play { $slow } (the slowest), then { $quick } (the quickest), and tap the beat. Which belongs to which end of the scale? Why?{ $given ->
        [part] { " " }Where it is silent, that is the class's own: clap on.
       *[full] { "" }
    }

# claims: quicker
minutes-clap-beats = Clap the beat of { $slow } (the slowest), then { $quick } (the quickest) (the cue sheet has both). What happens in the science there? What should be heard in each group's sound? “What your sound means” on the cards tells.

## plain: where no two beats can be told apart

minutes-compare = page.html, Hear: play { $first }, then { $last }. What is different? Which belongs to which end of the scale? Why?
minutes-clap-cards = Read “What your sound means” on the cards. What happens in the science in { $first }, and in { $last }? What should be heard in each group's sound?
minutes-one-stage = Read “What your sound means” on the cards, and play the piece on page.html, Hear. What do you hear of it?
minutes-compare-sounds = page.html, Hear: play { $first }, then { $last }. What is different? What happens in each, and why does it sound so? “What your sound means” on the cards has the author's reasons.
minutes-clap-sounds = Read “What your sound means” on the cards. What happens in { $first }, and in { $last }? What should be heard in each group's sound?
minutes-stage = stage { $letter }

## plain: what to do where time is short

minutes-short-of =
    { $second ->
        [yes] If time is short, leave out the second playing, then “{ $rules }”;
       *[no] If time is short, leave out “{ $rules }”;
    } { $words } can be done at home or another day.
minutes-two = Or two lessons: first “{ minutes-start }”, “{ minutes-science }” and “{ $rules }”, and each group its card without instruments; then from “{ $from }” on, with more time to explore and rehearse.
minutes-too-few = One playing takes { $once } minutes and listening to it { $listening }, so { $minutes } minutes hold no whole lesson: explore and rehearse in lessons of their own before this one.

## plain: what the steps use, by the names that a teacher finds it under

minutes-order = “Put it in order”
minutes-order-at = “Put it in order”, { $where }
minutes-chart = the flow chart
minutes-chart-at = the flow chart ({ $where })
minutes-cards = the group cards
minutes-words = “Words to know”
minutes-words-at = “Words to know” ({ $where })
minutes-words-aloud = the new words aloud
minutes-sound = “Our sound, and why”
minutes-sound-at = “Our sound, and why” ({ $where })

## plain: pages to print

minutes-pages =
    { $n ->
        [one] page { $pages }
       *[other] pages { $pages }
    }
minutes-pages-run = { $first } to { $last }
minutes-in-pupils = pupils.pdf, { $pages }
minutes-print = pupils.pdf: print for each group its own pages, as the table has them, once (better: once for two pupils), and { $all } for every pupil. For pupils who need help { $help }; for those who want more to think about { $more }.
