## plain: the sheet of the class's own recording: headings, what was measured, what to talk about

performed-heading = Did we play the science?
performed-stage = Stage
performed-title = What happens
performed-written = Written
performed-ours = Yours
performed-told = What the beat says
performed-questions = What the science asks
performed-next = For the next run
performed-reflect = Talk about it
performed-file = For the assessment file
performed-legend = Dashed: the { $quantity }, as the science has it. Thick: what your beat says through the key. Grey: how sure that is.{ $beyond ->
        [yes] {" "}Triangle: quicker or slower than the key goes.
       *[no] {""}
    }
performed-unit = { $quantity } in { $unit }
performed-says = Your beat says { $ours }, the science says { $science }.
performed-beyond = Your beat is { $way ->
        [quicker] quicker than the key goes: its quickest
       *[slower] slower than the key goes: its slowest
    } is { $end }. The science says { $science }.
performed-untold = This cannot be told from the recording, because { $why }.
performed-answer = { $answer ->
        [yes] Yes
       *[no] No
    }: { $why }.
performed-more = { $count ->
        [one] One more answer is in the file of figures beside this sheet.
       *[other] { $count } more answers are in the file of figures beside this sheet.
    }
performed-reflect-furthest = In stage { $stage } ({ $title }) your beat was furthest from the science, in stage { $other } nearest. What did you do in { $other } that would help in { $stage }?
performed-reflect-alike = Your beat kept near to the { $quantity } all the way. How did you know when to change it?
performed-reflect-listen = Which change in the piece could you hear best? What did it stand for?
performed-reflect-change = What happens in the science that our sound did not show? Which sound would you change, and how?
performed-assessment = The class played “{ $title }” and recorded it. { $asked ->
        [0] The recording raised no question that can be answered.
       *[other] Of { $asked } things that the science asks of the sound, { $answered } could be told from the recording, and { $right } of them were as the science has it; { $untold } could not be told. These figures are of the class as a whole and of one recording.
    }
