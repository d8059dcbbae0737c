## phrase: what the taps of a bar are for each player

taps-now-and-then = a tap now and then each
taps-each =
    { $n ->
        [one] about 1 tap each
       *[other] about { $n } taps each
    }

## no claim: counted from the taps as they are written

taps-even = about as many taps all through: { $each }
taps-most = most in bar { $bar } ({ $each })

# no claim: the fact that it holds has the claims
taps-come-and-go = { $runs }; where you are busiest, { $each }

## claims: busier

taps-to-many-and-back = from few taps to many and back: most in bar { $bar } ({ $each })
taps-to-many = from few taps to many: most in bar { $bar } ({ $each })
taps-to-few = from many taps to few: most in bar { $bar } ({ $each })
