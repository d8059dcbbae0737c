## plain: the sheet of the class's own recording: headings, what was measured, what to talk about

class_take-heading = Did we play the science?
class_take-stage = Stage
class_take-title = What happens
class_take-written = Written beat
class_take-ours = Your beat
class_take-told = What it says
class_take-questions = What the science asks
class_take-next = For the next run
class_take-reflect = Talk about it
class_take-file = For the assessment file
class_take-legend = Dashed: the { $quantity }, as the science has it. Thick: what your beat says through the key. Grey: how sure that is.
class_take-unit = { $quantity } in { $unit }
class_take-says = Your beat says { $ours }, the science says { $science }.
class_take-untold = This cannot be told from the recording, because { $why }.
class_take-answer = { $answer ->
        [yes] Yes
       *[no] No
    }: { $why }.
class_take-reflect-furthest = In stage { $stage } ({ $title }) your beat was furthest from the science, in stage { $other } nearest. What did you do in { $other } that would help in { $stage }?
class_take-reflect-alike = Your beat kept near to the { $quantity } all the way. How did you know when to change it?
class_take-reflect-listen = Which change in the piece could you hear best? What did it stand for?
class_take-reflect-change = What happens in the science that our sound did not show? Which sound would you change, and how?
class_take-assessment = The class played “{ $title }” and recorded it. { $asked ->
        [0] The recording raised no question that can be answered.
       *[other] Of { $asked } things that the science asks of the sound, { $answered } could be told from the recording, and { $right } of them were as the science has it; { $untold } could not be told. These figures are of the class as a whole and of one recording.
    }
