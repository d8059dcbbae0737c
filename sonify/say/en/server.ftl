## plain: what the local server says in its window and on its small pages

server-page-is-at = The classroom page is at { $address }  (Ctrl-C stops it)
server-shared = Shared: any browser on this network that is given the code can use this server until you stop it. The connection is not encrypted, so type no names into the page. Ask whoever looks after the school's network first.
server-other-machines = Other machines: { $address }  code { $code }
server-no-screen = At other machines browsers do not let the page keep the screen on (that needs an encrypted connection): conduct at this machine, or set the other to leave its screen on.
server-stopped = Stopped.
server-no-browser = The browser did not open ({ $error }); go to the address above.
server-gone-title = This lesson has to be opened again
server-join-title = The code, please
server-scaffold-full = Everything is written out: who plays what, and when.
server-scaffold-part = Some bars are left for the pupils to invent.
server-scaffold-open = Pupils get the frame of the piece and fill it themselves.

## plain: what was understood of a file that was opened

server-opened = { $file } is open: its scene, its class and what was changed.
server-class = Year { $year }, { $pupils } pupils in { $groups } groups, { $minutes } minutes.
server-cupboard = In the cupboard: { $held }.
server-no-cupboard = The cupboard is empty: claps, stamps and voices will do.
server-needs = Needs: { $needs }.
server-scene = { $title }: { $process }, ages { $youngest } to { $oldest }.
server-scene-size =
    { $rules ->
        [one] { $rules } rule
       *[other] { $rules } rules
    }, { $parts ->
        [one] { $parts } part
       *[other] { $parts } parts
    }, about { $length } of music.

## plain: the small pages

server-your-teacher-s-computer-shows = Your teacher's computer shows a code of eight letters and digits. Type it once, and this browser stays in until your teacher stops the program.
server-code = Code
server-go-in = Go in
server-this-page-needs-javascript-and = This page needs JavaScript, and it is switched off here.
server-this-page-comes-over-the = This page comes over the network as it is, without encryption. Type no name and no password into it. Over such a connection a browser does not let a page keep the screen on: if it goes dark while you conduct, touch it.
server-the-sonify-program-was-started = The sonify program was started anew, or has made many lessons since, and no longer holds this one. Nothing is lost: your plan is in this browser.
server-go-to-plan = Go to Plan
server-and-press-hear-or-conduct = , and press Hear or Conduct there.
server-no-answer = The computer that shows the code does not answer. Is the program still running there?
server-mend-groups = Make { $groups } groups
server-mend-line = Give { $part } the easier line
server-mend-sound = Play { $part } on { $instrument }
server-mend-texture = { $texture ->
    [drone] Let { $part } hold one long sound
    [ostinato] Let { $part } repeat a pattern
    [melody] Let { $part } play a tune
    [tremolo] Let { $part } roll
   *[scatter] Let { $part } play single taps
  }
server-mend-dealt = Leave it to the program who plays { $part }
server-mend-group = Give { $part } to group { $group }
server-mend-silent = Leave { $part } out
