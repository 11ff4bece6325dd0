package drive_test

import "tautspan/internal/words"

func codes(notes []words.Note) []string {
	all := []string{}
	for _, n := range notes {
		all = append(all, n.Code)
	}
	return all
}
