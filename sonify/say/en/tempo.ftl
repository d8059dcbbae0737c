## phrase: a tempo in plain words, under its Italian term

tempo-largo = very slow
tempo-larghetto = slow
tempo-adagio = unhurried
tempo-andante = walking pace
tempo-moderato = medium pace
tempo-allegro = quick and lively
tempo-presto = very fast
tempo-prestissimo = as fast as possible
