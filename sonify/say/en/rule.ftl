## phrase: where a finding belongs

rule-name = { $quantity } as { $control }
rule-name-of-part = { $quantity } as { $control } for { $part }
rule-place = { $key }, { $rule }
rule-stages = { $stages }
rule-place-stages = { $key }, { $rule }: { $stages }

## no claim: what the rule does with values beyond its ends, counted where it is mapped

rule-passed =
    The { $quantity } { $way ->
        [up] rises to
       *[down] falls to
    } { $reached } where the rule ends at { $end } and stays at { $sound }.
rule-held-beats =
    That is { $held } of { $beats } beats, in { $stages }.
rule-little-used = Where this rule sounds the { $quantity } { GOES($quantity) } from { $low } to { $high }, a small part of { $rule_low } to { $rule_high }: much of the sound is never heard.
rule-tempo-limits = The tempo stays between { $slowest } and { $fastest } a minute.
rule-tempo-held = { $stage } would be at { $asked } and is held at { $held }.

## phrase: tempi of a stage

rule-one-tempo = { $bpm }
rule-tempi = { $least } to { $most }

## no claim: the middle of two tempi of the scene

rule-no-tempo = No rule sets the tempo: the whole piece is at { $bpm } beats a minute, the middle of the scene's { $slowest } to { $fastest }.

## plain: what the length of the piece allows

rule-length-missed = The piece lasts { $lasts }, not { $asked }: { $stages } stages in whole bars do not fit that length within 10 %.
rule-no-room = In { $length } there is no room for { $bars } bars in every stage; fewer are hard to conduct and to join in with. Stages with fewer bars: { $stages }.

## phrase: a stage with its bars

rule-stage-of-bars = { $stage } ({ $bars })
