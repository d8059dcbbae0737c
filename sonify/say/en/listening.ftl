## plain: labels, buttons and instructions of the page

listening-listening-check = Listening check
listening-question-before = Question before
listening-next-question = Next question
listening-play = Play { $name }
listening-only-group = Only group { $group }
listening-count-hands = Count hands
listening-show-the-answer = Show the answer
listening-the-same-questions-are-on = The same questions are on the pupils’ sheet. Keys:
listening-space = Space
listening-plays-the-clip = plays the clip,
listening-go-to-the-question-before = go to the question before and the next.
listening-clip = clip { $letter }
listening-curve =
    The curve: { $quantity }{ $whole ->
        [yes] { " " }through the whole piece; the stage is shaded
       *[no] { "" }
    }.
