// Package units holds lengths as people write them: parsing text with or
// without a unit, and exact conversion.
package units

import (
	"errors"
	"strconv"
	"strings"
	"unicode"
)

// MillimetresPerInch is exact by definition (international inch, 1959).
const MillimetresPerInch = 25.4

// Unit is a unit of length.
type Unit string

// The units a length may be written in. NoUnit stands for a bare number.
const (
	NoUnit     Unit = ""
	Millimetre Unit = "mm"
	Centimetre Unit = "cm"
	Inch       Unit = "in"
)

// millimetres is what one of each unit is worth.
var millimetres = map[Unit]float64{Millimetre: 1, Centimetre: 10, Inch: MillimetresPerInch}

// suffixes lists what people write after the number, longest first.
var suffixes = []struct {
	text string
	unit Unit
}{
	{"inches", Inch}, {"inch", Inch}, {"in.", Inch}, {"in", Inch}, {`"`, Inch}, {"″", Inch}, {"”", Inch}, {"''", Inch},
	{"mm", Millimetre}, {"cm", Centimetre},
}

// Accepted says in plain words what ParseLength reads.
const Accepted = `write it like 12 1/16 in, 12-1/16", 12.06 in, 306,4 mm or 30.64 cm`

var errLength = errors.New("this is not a length; " + Accepted)

// ParseLength reads a length as a person types it and returns millimetres.
// Accepted are a decimal number with point or comma ("12.06", "306,4"), or
// inches with a fraction ("12 1/16", "12-1/16", "1/16"), each followed by mm,
// cm, in or an inch mark. A bare number is in the unit bare; with bare = NoUnit
// a bare number is an error. Negative lengths, exponents, digit grouping and
// anything else are refused with an error that says what is accepted.
func ParseLength(text string, bare Unit) (float64, error) {
	number, unit := splitUnit(text)
	if unit == NoUnit {
		unit = bare
	}
	if unit == NoUnit {
		return 0, errors.New("this has no unit; " + Accepted)
	}
	value, fraction, err := parseNumber(number)
	if err != nil {
		return 0, err
	}
	if fraction && unit != Inch {
		return 0, errors.New("fractions go with inches only; " + Accepted)
	}
	return value * millimetres[unit], nil
}

func splitUnit(text string) (string, Unit) {
	text = strings.ToLower(strings.TrimSpace(text))
	for _, s := range suffixes {
		if number, found := strings.CutSuffix(text, s.text); found {
			return strings.TrimSpace(number), s.unit
		}
	}
	return text, NoUnit
}

// parseNumber reads "12", "12.06", "306,4", "12 1/16", "12-1/16" or "1/16".
func parseNumber(text string) (value float64, fraction bool, err error) {
	text = strings.ReplaceAll(text, "⁄", "/")
	over, under, fraction := strings.Cut(text, "/")
	if !fraction {
		value, err = parseDecimal(text)
		return value, false, err
	}
	over = strings.TrimSpace(over)
	whole := 0.0
	if cut := strings.LastIndexFunc(over, func(r rune) bool { return r == '-' || unicode.IsSpace(r) }); cut >= 0 {
		if whole, err = parseWhole(strings.TrimRight(over[:cut], "- \t")); err != nil {
			return 0, true, err
		}
		over = strings.TrimLeft(over[cut:], "- \t\u00a0")
	}
	top, err := parseWhole(over)
	if err != nil {
		return 0, true, err
	}
	bottom, err := parseWhole(under)
	if err != nil {
		return 0, true, err
	}
	if top >= bottom {
		return 0, true, errors.New("the fraction must be less than one; " + Accepted)
	}
	return whole + top/bottom, true, nil
}

func parseWhole(text string) (float64, error) {
	text = strings.TrimSpace(text)
	if text == "" || len(text) > 6 || strings.Trim(text, "0123456789") != "" {
		return 0, errLength
	}
	return strconv.ParseFloat(text, 64)
}

func parseDecimal(text string) (float64, error) {
	text = strings.Replace(text, ",", ".", 1)
	digits := strings.Replace(text, ".", "", 1)
	if digits == "" || len(digits) > 20 || strings.Trim(digits, "0123456789") != "" {
		return 0, errLength
	}
	return strconv.ParseFloat(text, 64)
}
