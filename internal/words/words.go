// Package words is the message catalogue: every reason, caution, warning and
// note the engine can give, as a code with values, and its text. Models return
// codes; the text is made once, where the answer is written.
package words

import (
	"strconv"
	"strings"
)

// Note is one message: a code of the catalogue and the numbers in it.
type Note struct {
	Code   string
	Values []Value
}

// Value is a number inside a message, shown with a fixed count of decimals.
type Value struct {
	Name     string
	Number   float64
	Decimals int
}

// N returns a Note. It panics when the code is not in the catalogue, which is
// a programmer's mistake.
func N(code string, values ...Value) Note {
	if _, ok := english[code]; !ok {
		panic("words: code is not in the catalogue: " + code)
	}
	return Note{Code: code, Values: values}
}

// V returns a Value: name as written in the text's braces, the number, and the
// decimals to show (0 to 12).
func V(name string, number float64, decimals int) Value {
	return Value{Name: name, Number: number, Decimals: decimals}
}

// Text returns the note's sentence with its numbers filled in.
func (n Note) Text() string {
	text := english[n.Code]
	for _, v := range n.Values {
		shown := strconv.FormatFloat(v.Number, 'f', v.Decimals, 64)
		if strings.Trim(shown, "-0.") == "" {
			shown = strings.TrimPrefix(shown, "-") // never minus nothing
		}
		text = strings.ReplaceAll(text, "{"+v.Name+"}", shown)
	}
	return text
}

// english holds every text, put together from one file per subject.
var english = union(wearEnglish, identifyEnglish, driveEnglish, costEnglish, careEnglish, gearsEnglish, rideEnglish, forecastEnglish)

func union(parts ...map[string]string) map[string]string {
	all := map[string]string{}
	for _, part := range parts {
		for code, text := range part {
			if _, taken := all[code]; taken {
				panic("words: code is in the catalogue twice: " + code)
			}
			all[code] = text
		}
	}
	return all
}
