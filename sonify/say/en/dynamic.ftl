## phrase: loudness in plain words, under its mark

dynamic-pp = very soft
dynamic-p = soft
dynamic-mp = fairly soft
dynamic-mf = fairly loud
dynamic-f = loud
dynamic-ff = very loud
dynamic-with-mark = { $words } ({ $mark })
