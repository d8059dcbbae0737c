## plain: topics of science by which a scene is found

topic-states = States of matter
topic-materials = Properties and changes of materials
topic-sound = Sound
topic-light = Light
topic-electricity = Electricity
topic-forces = Forces
topic-space = Earth and space
topic-plants = Plants
topic-animals = Animals, including humans
topic-living = Living things
topic-rocks = Rocks
