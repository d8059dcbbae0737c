## no claim: what the audit of the rule found; `mapping/audibility.py` is held to its thresholds by its own tests

ear-not-played = { $part } does not play in this piece, so there is nothing to hear.
ear-one-tempo = There is one stage, so there is one tempo and nothing to compare.
ear-nothing-apart = Nothing can be told apart: the largest difference is { $most }, and we ask for { $asked }.
# claims: not told apart
ear-lost = Not every change can be heard. Lost: { $pairs }.
# claims: told apart
ear-neighbours =
    { $which ->
        [other] The other neighbouring stages differ by { $least } or more
        [changing] Neighbouring stages differ by { $least } or more where the { $subject ->
            [drawing] drawing
           *[science] science
        } changes
       *[all] Neighbouring stages differ by { $least } or more
    }; we ask for { $asked }.
# claims: told apart
ear-within = Within { $stage } it changes by { $most }; we ask for { $asked }.
# claims: not told apart
ear-faint =
    It changes a little { $pairs }, too little to hear{ $held ->
        [yes] , so the beat is held there
       *[no] { "" }
    }.
# claims: same
ear-as-science = The beat is what the { $quantity } gives, small steps and large: nothing is made larger, and nothing is held.
# claims: not told apart
ear-averages-alike =
    { $control ->
        [tempo] The averages hardly change { $pairs }, so the tempo cannot tell them apart.
       *[other] The averages are alike { $pairs }; the sound follows the curve within the stages.
    }
# claims: not told apart
ear-hardly-changes =
    The { $subject ->
        [drawing] drawing
       *[science] science
    } hardly changes { $pairs }: nothing to hear, and that is right.
ear-goes =
    The { $quantity }{ $averaged ->
        [yes] , averaged over each stage,
       *[no] { "" }
    } goes from { $low } to { $high } where the rule sounds.
# claims: not told apart
ear-same-average-tempo = Some neighbouring stages average nearly the same, so the tempo cannot tell them apart: { $steps }.
# claims: not told apart
ear-change-not-heard =
    The { $subject ->
        [drawing] drawing
       *[science] science
    } changes and the sound hardly does: { $steps }.
ear-lost-to-calm = The class needs no sudden loud sounds, which leaves this part little room between soft and loud: say this change, or show it with your hands. Nobody is asked to hear it.
# claims: not told apart
ear-small-change =
    A small change of the { $subject ->
        [drawing] drawing
       *[science] science
    } is too small to hear: { $steps }.
# claims: not told apart
ear-same-average = Only the averages are alike; the sound follows the curve within the stages: on average, { $steps }.
# claims: not told apart
ear-hardly-changes-told =
    The { $subject ->
        [drawing] drawing
       *[science] science
    } hardly changes, so there is nothing to hear, and that is right: { $steps }.

## phrase: stages and differences

ear-pair = from “{ $one }” to “{ $other }”
ear-steps = { $steps }
ear-step =
    from “{ $one }” to “{ $other }” the { $quantity } { $same ->
        [yes] stays at { $before }
       *[no] goes from { $before } to { $after }
    }, the { $control } from { $sound_before } to { $sound_after } ({ $difference } of the { $asked } we ask for)
ear-from-silence = the step from silence
ear-amount =
    { $control ->
        [pitch] { $n ->
            [one] { $amount } semitone
           *[other] { $amount } semitones
        }
        [dynamics] { $amount } dB
       *[other] { $amount } %
    }

## claims: same

ear-constant =
    The { $quantity }{ $averaged ->
        [yes] , averaged over each stage,
       *[no] { "" }
    } does not change here, so there is nothing to hear.
ear-stays =
    The { $quantity }{ $averaged ->
        [yes] , averaged over each stage,
       *[no] { "" }
    } stays at { $value } wherever this rule sounds, so its { $control } never changes.

# claims: at most
ear-flat-beside = The { $quantity } hardly { CHANGES($quantity) } beside the others that have this same rule, so hardly anything is heard of it: that is the result, and right.
