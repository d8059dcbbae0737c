## plain: what was found out about a sentence of the scene's author

authored-false = A sentence of the scene says that { $claim }. It is not so in this piece; the sentence is printed as it is written.
authored-fix = Mend the sentence, or the rule or the part that it speaks of.
authored-line = { $file }, line { $line }
