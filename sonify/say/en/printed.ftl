## plain: what the pages to print are

printed-guide = this guide without its appendix
printed-brief = this page; read the rest on a screen
printed-cues = cue page for the stand, cue sheet
printed-order = Put it in order: cut out, shared
printed-short =
    small cards{ $up ->
        [1] { "" }
        [2] , two on a page: cut
       *[other] : cut
    }
printed-long = a long card for the middle of each group
printed-sound =
    Our sound, and why{ $up ->
        [1] { "" }
       *[other] : two on a page, cut
    }{ $shared ->
        [yes] { "" }; one for two pupils
       *[no] { "" }
    }
printed-ticket =
    tickets{ $up ->
        [1] { "" }
        [2] , two on a page: cut
       *[other] , four on a page: cut
    }
printed-chart = flow chart, in place of cutting out
printed-words = Words to know
printed-words-help = Words to know, with help
printed-thinking = think on
printed-listening = What do you hear?
printed-pictures = cards by pictures alone
printed-own = cards of their own: cut
printed-felt = drawings to feel

## plain: files of a pack

printed-file-teacher = teacher.pdf
printed-file-conductor = conductor.pdf
printed-file-pupils = pupils.pdf
