"""Which sounds a scene file that a program writes asks for: the first that a cupboard holds is taken."""

#: All sound in one octave, so that the same value is the same note whoever plays.
TUNES = (
    ("alto xylophone", "alto metallophone", "chime bars", "hand bells", "voices on oo"),
    ("alto metallophone", "alto xylophone", "hand bells", "chime bars", "voices on mm"),
    ("chime bars", "alto xylophone", "alto metallophone", "keyboard", "voices on oo"),
    ("hand bells", "alto metallophone", "alto xylophone", "keyboard", "voices on mm"),
    ("keyboard", "alto xylophone", "chime bars", "hand bells", "voices on oo"),
)
TAPS = ("claves", "wood block", "egg shaker", "finger cymbals", "finger snaps")
SHIMMER = ("tambourine", "sleigh bells", "maracas", "triangle", "claps")
GROUND = ("ocean drum", "cabasa", "maracas", "egg shaker", "voices on sh")
STEADY = ("wood block", "two-tone block", "claves", "hand drum", "knee taps")
