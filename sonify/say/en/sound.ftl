## phrase: sound in a sentence or a table

sound-tempo = { $bpm } a minute
sound-tempo-in-words =
    { $bpm } a minute ({ $term ->
        [largo] Largo
        [larghetto] Larghetto
        [adagio] Adagio
        [andante] Andante
        [moderato] Moderato
        [allegro] Allegro
        [presto] Presto
       *[prestissimo] Prestissimo
    }, { $pace })
sound-pitch = { $note }
sound-no-taps = no taps
sound-taps =
    { $n ->
        [one] { $count } tap a { $each }
       *[other] { $count } taps a { $each }
    }
sound-tap-in-bars = 1 tap in { $bars } bars
sound-dynamics =
    { $mark ->
        [pp] pp (pianissimo, very soft)
        [p] p (piano, soft)
        [mp] mp (mezzo piano, fairly soft)
        [mf] mf (mezzo forte, fairly loud)
        [f] f (forte, loud)
       *[ff] ff (fortissimo, very loud)
    }
sound-brightness =
    { $how ->
        [darkest] very dark (the softest beater)
        [dark] dark (a soft beater)
        [medium] medium (a medium beater)
        [bright] bright (a hard beater)
       *[brightest] very bright (the hardest beater)
    }
