## plain: what is wrong with a measure

error_unit-number-unit-degc = "{ $text }" is not a number with a unit, such as "14 degC"
error_unit-unit-write-degc = "{ $text }" has no unit; write it with one, such as "{ $found } degC" or "{ $found_2 } m/s"
error_unit-turned-into = "{ $from_unit }" cannot be turned into "{ $to_unit }"
error_unit-unit-used-here = "{ $text }": the unit "{ $unit }" cannot be used here; a measure in { $known } is wanted
