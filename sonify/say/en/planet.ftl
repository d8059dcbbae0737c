## plain: the planets' names, inside a sentence

planet-Mercury = Mercury
planet-Venus = Venus
planet-the-Earth = the Earth
planet-Mars = Mars
planet-Jupiter = Jupiter
planet-Saturn = Saturn
