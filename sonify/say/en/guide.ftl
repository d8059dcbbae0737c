## plain: headings of the teacher's pages

guide-lessons = The lesson, step by step
guide-lesson =
    { $n ->
        [one] One lesson of { $minutes } minutes
       *[other] Lesson { $number }: { $minutes } minutes
    }
guide-other = Or otherwise
guide-practical = The practical
guide-kit = { $minutes } minutes. You need: { $things }.
guide-care = Take care:
guide-groups = Who plays what
guide-answers = Model answers to “Our sound, and why”
guide-answers-how = With help, pupils tick these words. For everyone: the sentence. Think on: the sentence and the numbers below it.
guide-all-groups = Several
guide-as-before = Sentence { $number } of the first page.
guide-numbers = Numbers:
guide-ticket = Ticket: “{ $ask }” { $answer }
guide-step = { $letter } { $science }: { $sound }
guide-appendix = Appendix: to read on a screen
guide-appendix-why = The story, the science with its curves and sources, the key, what the checks noted, further questions and answers, the assessment grid. It is not for printing.
guide-story = The story, to read aloud
guide-more-beliefs = More that pupils may think
guide-more-questions = More questions to ask
