## plain: the steps of the lesson

minutes-question = The question
minutes-story = The story
minutes-board = Order on the board
minutes-cut = Put it in order
minutes-practical = The practical
minutes-rules = Hear the rules
minutes-sounds = Hear the sounds
minutes-remember = Remember
minutes-talk = Talk about it
minutes-know-words = Words to know
minutes-read-cards = Read the cards
minutes-fetch = Fetch instruments, stop signal
minutes-places = Take places, stop signal
minutes-explore = Explore in groups
minutes-rehearse = Rehearse
minutes-perform = Perform and record
minutes-again = Perform again
minutes-listen = Listen back
minutes-clear = Bring back, come together
minutes-exit = Our sound, and why
minutes-hear-check = Listening check
minutes-hand = In hand

## plain: what happens in each step

minutes-question-what = { $ticket }: each pupil ticks in the row “Before”.
minutes-story-what =
    Tell it (appendix). { $given ->
        [open] Every sound will be the class’s own.
       *[full] Then half a minute of soundscape.wav: what could it be?
    }
minutes-board-what =
    { $ordered ->
        [yes] The stages on the board, mixed up. Pupils number them; one sentence on each.
       *[no] Write the names on the board. Pupils say which has least and which most; one sentence on each.
    }
minutes-cut-what = { $order }, or { $chart }: cut out, lay in order, talk about each stage with the questions of this guide.
minutes-practical-what = As on this page, with its own kit and cautions.
minutes-remember-what = Who can say what changed, and how we will hear it?
minutes-talk-what =
    { $measured ->
        [yes] What did we find? What do the curves of the appendix show? Which of “What pupils may think” did you hear?
       *[no] What did we find? Which of “What pupils may think” did you hear?
    }
minutes-words-what = { $words }.
minutes-cards-what = Each group reads its card ({ $cards }) and claps its pattern. No instruments yet.
minutes-fetch-what =
    { $fetched ->
        [yes] Group by group: fetch, sit, beaters down. The stop signal, twice.
       *[no] Each group to its place. The stop signal: all silent at once, twice.
    }
minutes-explore-what =
    Each group with its card ({ $cards }), by the noise plan: { $given ->
        [open] invent
       *[full] learn
    } its part, agree who plays what. { $given ->
        [full] Stuck? Hear your part: page.html, Hear, “Everyone plays” off.
        [part] Where the box is empty, try two ideas and keep the one that fits the science.
       *[open] Stuck? Try two ideas; another group says which one fits the science.
    }
minutes-rehearse-what = The signs first (map, conductor.pdf). Then a minute a stage, from the cue page or page.html, Conduct.
minutes-perform-what = Settle, then once through without stopping. Record it.
minutes-again-what = With one thing made better.
minutes-listen-what = Hear your recording ({ $listening }). What changed, and when?
minutes-clear-what =
    { $fetched ->
        [yes] Group by group; then all sit together.
       *[no] All sit together.
    }
minutes-exit-what = { $sound }: each pupil ends a sentence. Then { $ticket }: row “After” and the exit line; the third row three weeks later.
minutes-check-what = { $check }, from page.html, Hear.
minutes-hand-what = For whatever took longer.

## plain: other numbers of lessons, and what the minutes rest on

minutes-offered =
    lessons = { $lessons } in the class file: { $lessons ->
        [1] one lesson of { $minutes } minutes, without the practical.
        [2] two of { $minutes } minutes; first the science with the practical and the rules, then making and performing.
       *[4] four short ones of { $minutes } minutes: the practical; order and rules; exploring; performing.
    }
minutes-left-out = Left out of it: { $steps }.
minutes-whole = Nothing is left out.
minutes-assumed =
    Assumed: { $fetched ->
        [yes] { $fetch } minutes to fetch and agree the stop signal, { $clear } to bring back,
       *[no] nothing to fetch,
    } { $perform } for a playing with a minute to settle, { $exit } to write.
minutes-too-few = One playing takes { $once } minutes and listening to it { $listening }, so { $minutes } minutes hold no whole lesson: explore and rehearse in lessons of their own before this one, or write lessons = 2 in the class file.

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
minutes-ticket = the ticket
minutes-ticket-at = Ticket ({ $where })
minutes-check = “What do you hear?”
minutes-check-at = “What do you hear?” ({ $where })

## plain: pages to print

minutes-pages =
    { $n ->
        [one] page { $pages }
       *[other] pages { $pages }
    }
minutes-pages-run = { $first } to { $last }
minutes-in-pupils = pupils.pdf, { $pages }
