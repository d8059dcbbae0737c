## plain: what was found out about a sentence of the scene's author

authored-false = A sentence of the scene says that { $claim }. It is not so in this piece; the sentence is printed as it is written.
authored-fix = Mend the sentence, or the rule or the part that it speaks of.
authored-line = { $file }, line { $line }

authored-for-other-conditions = These sentences of the scene were written for it as it stands, and its { $what ->
        [readings] readings
       *[settings] settings
    } are others here: { $quotes }.
authored-for-other-conditions-fix = Check each figure in the science before you say it. The teacher's sheet marks them; pupils' sheets leave them out.

## plain: what is said beside a sentence of the author's, in the teacher's sheet

authored-check = [Written for the scene as it stands; the { $what ->
        [readings] readings
       *[settings] settings
    } are others here. Check the figures.]
authored-not-so = [Not so in this piece.]
authored-nobody-plays = [Nobody plays { $part } in this piece.]
authored-rests-there = [{ $part } { RESTS($part) } in “{ $stage }”: its sound does not tell of it there.]
authored-stage-missing = [The stage that this speaks of, { $stage }, does not come here.]
