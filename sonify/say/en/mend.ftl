## plain: what a person can write to mend a finding

mend-write =
    Write { $text } in the rule "{ $quantity } as { $control }{ $whom ->
        [part] { " " }for { $part }
       *[all] { "" }
    }".
mend-write-on-page =
    In “Change the sound”, give the rule "{ $quantity } as { $control }{ $whom ->
        [part] { " " }for { $part }
       *[all] { "" }
    }" other ends: { $text }.
mend-no-ends = No ends within the limits make all of it heard. Let { $control } follow another quantity, or hear { $quantity } as something else ({ $others }).
mend-let-it-glide = Write gliding = true in [music], and the tempo follows the quantity within the stage.
mend-let-it-glide-on-page = For a tempo that follows the quantity within the stage, save the scene, write gliding = true under [music] there, and open it again here.
mend-hear-another = Hear a quantity that changes there, or leave the rule out.
mend-if-it-matters = If it matters to you: { $write }
mend-if-wished = If you wish to hear more of it: { $write }
mend-glide-or-part = Where the curve moves within these stages, write gliding = true in [music], and the tempo follows it bar by bar; or part the piece into more stages.
mend-glide-or-part-on-page = Where the curve moves within these stages, the tempo can follow it bar by bar: save the scene, write gliding = true under [music] there, and open it again here.
mend-tempo-limits = Write tempo = [{ $slowest }, { $fastest }] in [music], or other tempi in to of the rule "{ $rule }".
mend-tempo-limits-on-page = Choose other tempi in the rule "{ $rule }", or save the scene, write tempo = [{ $slowest }, { $fastest }] under [music] there, and open it again here.
mend-add-tempo = Add a [[hear]] with as = "tempo", if the beat is to follow something.
mend-add-tempo-on-page = Add a rule in “Change the sound” that is heard as tempo, if the beat is to follow something.
mend-length = Write length = "{ $seconds } s" or more in [music].
mend-length-on-page = Save the scene, write length = "{ $seconds } s" or more under [music] there, and open it again here.
mend-no-logarithm = Write curve = "linear" in the rule "{ $rule }": a logarithmic curve cannot start from nothing.
mend-no-logarithm-on-page = Choose equal steps under “In between” of the rule "{ $rule }": a logarithmic curve cannot start from nothing.

## phrase: the ends of a quantity or of a control

mend-ends = { $what } from { $low } to { $high }
