## plain: what is wrong, said to the person who can mend it

error_redeal-no-group = there is no group { $group }; the groups are 1 to { $groups }
error_redeal-too-few = too few are left: every part needs its players, and these { $least } are needed. Make the pack again, with the pupils who are there in the class file
error_redeal-too-few-on-page = too few are left: every part needs its players, and these { $least } are needed. Set Pupils in “Your class” to those who are there, and print anew
error_redeal-no-pack = { $pack } is no lesson pack: it has no { $manifest } that sonify wrote. Give the folder of a pack
error_redeal-other-file = the pack was made from another { $what } file. Give the one it was made from with { $option }
error_redeal-absent = “{ $text }” is no number of absent pupils; write 3, or "2 in group 4"
error_redeal-broken = “{ $text }” names no instrument; write triangle, or "2 triangles"
error_redeal-nothing = nobody is absent and nothing is broken; say how many pupils are absent, or which instrument is broken
error_redeal-other-music = { $pack }: this version of sonify would make other music from these files. Make the pack again
error_redeal-there-already = { $out } is there already, and nothing was written; choose a new folder with --out
