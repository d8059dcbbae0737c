## plain: headings of the first page

brief-say = Pupils will be able to say
brief-kit = Get out
brief-print = Print, in black and white
brief-noise-plan = Noise
brief-timings = Minutes
brief-aim-head = Aim
brief-file = File
brief-pages = Pages
brief-copies = Copies
brief-what = What
brief-sides = { $sides } sheets of paper in all, printed on one side.

## plain: what the first page tells of this class

brief-class = Year { $year }, { $pupils } in { $groups }.
brief-aim =
    Pupils play the piece, and explain how { $quantities } { $one ->
        [yes] { CHANGES($first) }
       *[no] change
    } and how our sound shows it.
brief-aim-order = Pupils put the { $n } stages in order, play them, and say why each sounds as it does.
brief-aim-played = Pupils play the piece, and say what they hear of it and why.
brief-the = the { $quantity }
brief-cupboard = From the cupboard: { $things }.
brief-no-cupboard = Nothing from the cupboard: voices and hands play it all.
brief-practical-kit =
    { $lessons ->
        [one] For the practical, if you add a lesson (lessons = 2 in the class file): { $things }.
       *[other] For the practical: { $things }.
    }
brief-room-kit = Projector or tablet with page.html, something to record with, scissors, pencils.
brief-lesson =
    { $n ->
        [one] { $minutes } minutes: { $steps }.
       *[other] Lesson { $number }, { $minutes } minutes: { $steps }.
    }
brief-noise =
    { $groups ->
        [one] One group tries out alone.
       *[other] { $groups } groups in one room are too loud for thinking. First half of exploring: fingertips and whispers only, all at once. Second half: one group at a time aloud, a minute each, while the others watch its card.
    }{ $loud ->
        [none] { "" }
       *[some] { " " }{ $n ->
            [one] Group { $which } is
           *[other] Groups { $which } are
        } the loudest: in the hall or the corridor with an adult, or last.
    }{ $fetched ->
        [yes] { " " }Stop signal: your hand up, beaters down, all silent.
       *[no] { " " }Stop signal: your hand up, all silent.
    }
brief-gentle = No sudden loud sounds: tell the class before each start, and begin softly.

# no claim: both changes are the key's own sentence, held there
brief-model = Our music is a model. { $told }

# no claim: its author's own question and answer, held there
brief-asked = { $ask } { $answer }
