## plain: what is wrong, said to the person who can mend it
error_drawn-wanted-up-pairs = wanted: up to { $most_sent } pairs of a place and a value
error_drawn-drawn-quantity-number = a drawn quantity has a number, or "new" for one more
error_drawn-wanted-table-name = wanted: a table of name, unit and points
error_drawn-wanted-name = a curve needs a name of up to { $most } letters
error_drawn-name-there-already = "{ $name }" is drawn already; give this one another name
error_drawn-no-drawing = nothing can be drawn over this scene: it plays what was measured, or stages in order
error_drawn-changed-here = "{ $unknown }" cannot be changed here
error_drawn-wanted-texts-numbers = wanted: texts, numbers and lists of numbers
error_drawn-drawn-quantity-scene = there is no drawn quantity { $value }; the scene has { $rows }
error_drawn-outside-what-allowed = { $text } is outside what is allowed: more than nothing, up to 300 years
error_drawn-write-number-alone = is { $value }; write the number alone: its unit stands in the line unit
error_drawn-wanted-number = is { $value }; wanted: a number
error_drawn-too-large-number = is too large a number
error_drawn-wanted-place-value = is { $value }; wanted: a place and a value, such as [1.5, 20]
error_drawn-write-three = { $told }; write one of these three: { $ways }
error_drawn-line-belongs-shape = has the line "{ $stray }", which belongs to a shape; take it out
error_drawn-needs-values-write = "{ $shape }" needs its values: write for example { $wanted }
error_drawn-value-write-alone = "{ $shape }" has one value: write from alone
error_drawn-comes-once-times = "{ $shape }" comes once; times is for swings and repeats
error_drawn-goes-value-through = goes from { $start } to { $end }; for one value all through write shape = "steady"
error_drawn-ends-starts = "{ $shape }" ends with { $wanted } than it starts with, not from { $start } to { $end }
error_drawn-places-points-do = the places of its points do not rise; write each further on than the one before
error_drawn-process-stages-scene = this process has the stages that a scene file gives it, a [[stage]] each; there are none
error_drawn-allowed-circle-write = "{ $shape }" ends elsewhere than it began, and a circle comes back to its beginning. Allowed in a circle: { $closing }; or write values or points
error_drawn-where-each-stage = holds { $values } values for { $count } stages; write { $count }, one a stage, or { $more }: where each stage begins and where the last one ends
error_drawn-leave-circle = begins with { $first } and ends with { $last }, and a circle comes back to its beginning; make the last value { $first }, or leave circle out
error_drawn-leave-last-point = begins with { $first } and ends with { $last }, and a circle comes back to its beginning; make the last value { $first }, or leave the last point out
error_drawn-first-stage-nothing = "{ $at }" is the first stage, so there is nothing to jump from; name a later one
error_drawn-takes-quantities-least = { $among } of the quantities come "one after another" in { $count } stages; it takes two quantities at least, and no more than there are stages
error_drawn-both = { $one } and { $other }
error_drawn-contradict = says { $both }, which both are about { $control }; keep one of them
error_drawn-has = has { $given }
error_drawn-has-none = has no values
error_drawn-needs-stage = "{ $shape }" needs the stage at which it jumps: write at = "NAME OF A STAGE"
error_drawn-no-use-for-stage = "{ $shape }" has no use for the line at = "NAME OF A STAGE"
error_drawn-more = more
error_drawn-less = less
error_drawn-from = from = 20
error_drawn-from-and-to = from = 4 and to = 12
error_drawn-point-outside = has a point at the place { $outside }; the { $count } stages go from place 0 to { $count }
error_drawn-nothing-drawn = missing; write a [[drawn]] for each quantity, or process = "in-order" where there is none
error_drawn-sound-of-order = belongs to process = "in-order"; here the rules, [[hear]], say how it sounds
error_drawn-why-of-sound = belongs to the line sound; a rule, [[hear]], has a why of its own
error_drawn-stages = { $count } stages; a process of your own has { $fewest } to { $most }, a [[stage]] each
error_drawn-no-stages = no stages; a process of your own has { $fewest } to { $most }, a [[stage]] each
error_drawn-no-such-stage = there is no stage "{ $stage }". Allowed: { $names }
error_drawn-missing-write-each = missing; write for each stage how long it lasts, or for none of them
error_drawn-computes-itself-give = { $name } computes "{ $name_2 }" itself; give what you draw another name
error_drawn-less-millionth-longest = is less than a millionth of the longest; no drawing shows both
error_drawn-stage-says-how = no stage says how it sounds; give at least one of them a line such as sound = ["soft", "slow"]
error_drawn-follows-quantity-nothing = follows a quantity, and nothing is measured here; take it out, or write process = "drawn"
error_drawn-missing-write-why = missing; write why it sounds so, in a pupil's words: pupils are asked for the reason
error_drawn-missing-wanted-line = missing; wanted: one line for pupils, in quotation marks
