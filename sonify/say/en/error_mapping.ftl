## plain: what is wrong, said to the person who can mend it
error_mapping-tempo-class-follows = "{ $part }" cannot have a tempo of its own: a class follows one conductor, so there is one tempo at a time. Leave `part` out, or let the part follow the quantity with `as = "density"`
error_mapping-range-write-values = "{ $text }" to "{ $text_2 }" is no range: write two values
error_mapping-both-ends-nothing = both ends are "{ $to_low_text }", so nothing would change: write two values
error_mapping-sets-sets-already = sets { $control } for { $place }, which { $key } sets already; keep one of the two, or give one of them another control or part
error_mapping-measure-write = "{ $text }" is no measure of { $name }: write it in { $printed }, such as "{ $value } { $unit }"
error_mapping-goes = "{ $text }" cannot be: { $control } goes from { $least } to { $most } { $unit }
error_mapping-stage-found-what = { $name }: no stage was found in what was computed, so there is nothing to play; change the scene's [conditions], or leave them out to start from those of the process
error_mapping-write-number-above = { $share } for "{ $stage }": write a number above 0, such as 1
error_mapping-whole-piece = the whole piece
error_mapping-one-part = the part "{ $part }"
error_mapping-decibels-of-loudness = only loudness has steps in decibels, not { $control }; write `curve = "linear"`
error_mapping-logarithmic-from = a logarithmic curve follows ratios, and the range of { $name } starts from 0 or below; write `curve = "linear"` or start `from` above 0
error_mapping-logarithmic-scale = a logarithmic curve follows ratios, and the range of { $name } has a zero that is only a point on a scale ({ $unit }); write `curve = "linear"`
