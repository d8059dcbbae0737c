## plain: what the process is about, what a sheet says of its sounds, and what to mend

order-title = Stages in order
order-summary = What comes after what, with words and a sound for each stage. Nothing is measured.
order-alike = Nothing tells these stages apart by ear: { $pairs }.
order-mend-alike = Give one of each two other words for its sound, or let another part play there.
order-sound =
    { $word ->
        [slow] slow
        [quick] quick
        [soft] soft
        [loud] loud
        [still] still
        [busy] busy
        [low] low
       *[high] high
    }
order-sounds = { $sounds }
order-plain = in between
order-no-scale = There is no scale behind these sounds: a loud stage is not “more” of anything. Pupils can explain every one of them all the same: ask for the reason.
order-head-why = Why it sounds so
order-head-sound = How it is meant to sound
order-told = { $stage }: { $sounds }. { $why }
order-ask = Why is “{ $stage }” { $sounds }? What else would fit?
order-ask-without = What would the class miss if “{ $stage }” were left out?

## no claim: what the sounds rest on, and what was not done

order-honesty-no-scale = Nothing is measured, computed or drawn here. The stages come in their true order; how a stage sounds was chosen by whoever wrote the lesson, to fit what happens in it. No number stands behind it, so there is no key, and nothing can be read off the music but the order.
order-honesty-reasons = What pupils can explain is the reason: why is this stage loud, or slow? The author's reasons stand beside each stage. Another reason, and another sound, can be as good.
order-honesty-no-time = How long a stage takes is not told: that one lasts longer in the music says nothing about real time.
