package wire

import (
	"math"
	"slices"
	"strconv"
	"unicode/utf8"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
)

type number float64

func (c *number) read(raw []byte, f *Field, path string) error {
	v, err := readNumber(raw, f, path)
	if err == nil {
		*c = number(v)
	}
	return err
}

func readNumber(raw []byte, f *Field, path string) (float64, error) {
	if jsonscan.KindOf(raw) != '0' {
		return 0, wrongType(path, "a number", raw)
	}
	v, err := strconv.ParseFloat(string(raw), 64)
	if err != nil || math.IsInf(v, 0) || f.bounded && (v < f.lo || v > f.hi) {
		return 0, fault.New(fault.OutOfRange, path, shorten(string(raw))+" is not possible here"+f.allowed())
	}
	return v, nil
}

type integer int

func (c *integer) read(raw []byte, f *Field, path string) error {
	v, err := readNumber(raw, f, path)
	if err != nil {
		return err
	}
	if v != math.Trunc(v) || math.Abs(v) > 1<<53 {
		return fault.New(fault.WrongType, path, shorten(string(raw))+" is not a whole number"+f.allowed())
	}
	*c = integer(v)
	return nil
}

type boolean bool

func (c *boolean) read(raw []byte, _ *Field, path string) error {
	switch string(raw) {
	case "true":
		*c = true
	case "false":
		*c = false
	default:
		return wrongType(path, "true or false", raw)
	}
	return nil
}

type text string

func (c *text) read(raw []byte, f *Field, path string) error {
	v, err := readText(raw, path)
	if err != nil {
		return err
	}
	if n := utf8.RuneCountInString(v); f.most > 0 && (n < f.least || n > f.most) {
		return fault.New(fault.OutOfRange, path, "this text has "+strconv.Itoa(n)+" characters"+f.allowed())
	}
	*c = text(v)
	return nil
}

func readText(raw []byte, path string) (string, error) {
	if jsonscan.KindOf(raw) != '"' {
		return "", wrongType(path, "a text", raw)
	}
	return jsonscan.Text(raw), nil
}

// quantity keeps a number as its text.
type quantity string

func (c *quantity) read(raw []byte, f *Field, path string) error {
	if jsonscan.KindOf(raw) == '0' {
		*c = quantity(raw)
		return nil
	}
	return (*text)(c).read(raw, f, path)
}

// word is a text of any string type: Field.word, or one of Field.words.
type word struct{}

func (*word) read(raw []byte, f *Field, path string) error {
	v, err := readWord(raw, f, path)
	if err == nil {
		f.setWords([]string{v})
	}
	return err
}

func readWord(raw []byte, f *Field, path string) (string, error) {
	v, err := readText(raw, path)
	if err == nil && !slices.Contains(f.words, v) {
		err = fault.New(fault.NotAllowed, path, string(AppendText(nil, shorten(v)))+" is not known here"+f.allowed())
	}
	return v, err
}

type pair [2]float64

func (c *pair) read(raw []byte, f *Field, path string) error {
	bounds := *f
	bounds.least, bounds.most = 2, 2
	items, err := splitList(raw, &bounds, path)
	if err != nil {
		return err
	}
	for i, item := range items {
		if c[i], err = readNumber(item, f, entryPath(path, i)); err != nil {
			return err
		}
	}
	if c[0] > c[1] {
		return fault.New(fault.Contradiction, path, "the first number is the lower end and must not be above the second")
	}
	return nil
}

type anyValue []byte

func (c *anyValue) read(raw []byte, _ *Field, _ string) error {
	*c = slices.Clone(raw)
	return nil
}
