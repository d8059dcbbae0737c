## plain: a verb that agrees with its noun, which may be a person's own: "the frogs rise"
verb-rises =
    { $many ->
        [yes] rise
       *[no] rises
    }
verb-falls =
    { $many ->
        [yes] fall
       *[no] falls
    }
verb-is =
    { $many ->
        [yes] are
       *[no] is
    }
verb-was =
    { $many ->
        [yes] were
       *[no] was
    }
verb-goes =
    { $many ->
        [yes] go
       *[no] goes
    }
verb-stays =
    { $many ->
        [yes] stay
       *[no] stays
    }
verb-changes =
    { $many ->
        [yes] change
       *[no] changes
    }
verb-has =
    { $many ->
        [yes] have
       *[no] has
    }
verb-plays =
    { $many ->
        [yes] play
       *[no] plays
    }
verb-rests =
    { $many ->
        [yes] rest
       *[no] rests
    }
verb-lies =
    { $many ->
        [yes] lie
       *[no] lies
    }

# plain: the beginning of a comparison that agrees with a number of things: "the more frogs", "the higher the mass"
verb-greater =
    { $many ->
        [yes] The more
       *[no] The higher the
    }
