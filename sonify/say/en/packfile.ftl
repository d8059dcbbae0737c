## plain: what each file of a pack is for

packfile-teacher-pdf = read this first: the lesson in minutes, the science, the key
packfile-conductor-pdf = your map, cue sheet, graphic score and score
packfile-pupils-pdf = flow chart, group cards, vocabulary, our sound and why
packfile-poster-pdf = one page for the wall or the projector
packfile-page-html = open it in a browser, in front of the projector: hear and conduct
packfile-soundscape-wav =
    the recording{ $stems ->
        [no] { "" }
       *[yes] ; stems/ has one file a group
    }
packfile-soundscape-mid = for keyboards, sequencers and notation programs; midi/ has one file a group
packfile-score-musicxml = for notation programs
