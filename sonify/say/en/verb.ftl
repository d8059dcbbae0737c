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
verb-does =
    { $many ->
        [yes] do
       *[no] does
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

# plain: the beginning of a comparison that agrees with what is compared: "the more frogs", "the longer the shadow"
verb-greater =
    { $many ->
        [yes] The more
       *[no] { $head ->
            [shadow] The longer the
            [time] The longer the
            [stretch] The longer the
            [depth] The deeper the
            [layer] The deeper the
            [angle] The wider the
            [gap] The wider the
            [spacing] The wider the
            [room] The wider the
            [area] The larger the
            [current] The larger the
            [difference] The larger the
            [gain] The larger the
            [grain] The larger the
            [loss] The larger the
            [part] The larger the
            [share] The larger the
            [spread] The larger the
            [distance] The greater the
            [effort] The greater the
            [flow] The greater the
            [force] The greater the
            [length] The greater the
            [loudness] The greater the
            [mass] The greater the
            [power] The greater the
            [daylight] The more
            [gas] The more
            [gravel] The more
            [heat] The more
            [overflow] The more
            [rain] The more
            [run-off] The more
            [salt] The more
            [sand] The more
            [silt] The more
            [snow] The more
            [sunlight] The more
            [warmth] The more
            [water] The more
            [work] The more
           *[other] The higher the
        }
    }
