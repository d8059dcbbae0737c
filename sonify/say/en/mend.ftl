## plain: what a person can write to mend a finding

mend-write =
    Write { $text } in the rule "{ $quantity } as { $control }{ $whom ->
        [part] { " " }for { $part }
       *[all] { "" }
    }".
mend-no-ends = No ends within the limits make all of it heard. Let { $control } follow another quantity, or hear { $quantity } as something else ({ $others }).
mend-let-it-glide = Write gliding = true in [music], and the tempo follows the quantity within the stage.
mend-hear-another = Hear a quantity that changes there, or leave the rule out.
mend-if-it-matters = If it matters to you: { $write }
mend-if-wished = If you wish to hear more of it: { $write }
mend-glide-or-part = Where the curve moves within these stages, write gliding = true in [music], and the tempo follows it bar by bar; or part the piece into more stages.
mend-tempo-limits = Write tempo = [{ $slowest }, { $fastest }] in [music], or other tempi in to of the rule "{ $rule }".
mend-add-tempo = Add a [[hear]] with as = "tempo", if the beat is to follow something.
mend-length = Write length = "{ $seconds } s" or more in [music].
mend-no-logarithm = Write curve = "linear" in the rule "{ $rule }": a logarithmic curve cannot start from nothing.
