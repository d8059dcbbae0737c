## plain: names of the sound controls

control-tempo = tempo
control-pitch = pitch
control-density = density
control-dynamics = dynamics
control-brightness = brightness
