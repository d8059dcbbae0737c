## plain: what is wrong, said to the person who can mend it
error_web-port-port-number = --port { $port }: a port is a number from 0 to 65535; 0 takes a free one
error_web-port-choose-another = port { $port } { $why }; choose another with --port, or --port 0 for any free one
error_web-font-regular-bold = the font { $font } (regular and bold) is not in { $fonts_dir }; install the toolkit again
error_web-output-could-written = the output could not be written: { $value }
error_web-room-temporary-files = there is no room for temporary files ({ $strerror }); free some space on the disk
error_web-port-in-use = is in use: sonify may be running already in another window
error_web-port-kept = is kept by the system
error_web-port-not-had = cannot be had ({ $strerror })
