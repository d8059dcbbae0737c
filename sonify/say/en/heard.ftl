## plain: what was measured in the recording

heard-no-key = Nothing is measured in this scene and no key is printed, so there is nothing to read back from the recording.
heard-not-recovered = { $quantity } is played as { $control }, and cannot be told from the recording: the stages come back in another order (rank correlation { $rank }).
heard-not-recovered-fix = Widen the rule's sounds, or give the part an instrument on which they can be heard.
heard-masked = { $share } % of its strokes are covered by the other parts.
heard-masked-fix = Give it an instrument that is higher, lower or brighter than theirs, or let them play softer there.
heard-under-fan = It lies only { $over } dB over a projector's fan of { $fan } dB(A), where the piece is as loud as speech.
heard-under-fan-fix = Let more play there, or play it louder.
