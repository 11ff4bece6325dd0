package wire

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
)

type number struct{ p *float64 }

func (c number) read(raw []byte, f *Field, path string) error {
	v, err := readNumber(raw, f, path)
	if err == nil {
		*c.p = v
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

type integer struct{ p *int }

func (c integer) read(raw []byte, f *Field, path string) error {
	v, err := readNumber(raw, f, path)
	if err != nil {
		return err
	}
	if v != math.Trunc(v) || math.Abs(v) > 1<<53 {
		return fault.New(fault.WrongType, path, shorten(string(raw))+" is not a whole number"+f.allowed())
	}
	*c.p = int(v)
	return nil
}

type boolean struct{ p *bool }

func (c boolean) read(raw []byte, _ *Field, path string) error {
	switch string(raw) {
	case "true":
		*c.p = true
	case "false":
		*c.p = false
	default:
		return wrongType(path, "true or false", raw)
	}
	return nil
}

type text struct{ p *string }

func (c text) read(raw []byte, f *Field, path string) error {
	v, err := readText(raw, path)
	if err != nil {
		return err
	}
	if n := utf8.RuneCountInString(v); f.most > 0 && (n < f.least || n > f.most) {
		return fault.New(fault.OutOfRange, path, "this text has "+strconv.Itoa(n)+" characters"+f.allowed())
	}
	*c.p = v
	return nil
}

// quantity keeps a number as its text.
type quantity struct{ p *string }

func (c quantity) read(raw []byte, f *Field, path string) error {
	if jsonscan.KindOf(raw) == '0' {
		*c.p = string(raw)
		return nil
	}
	return text(c).read(raw, f, path)
}

func readText(raw []byte, path string) (string, error) {
	if jsonscan.KindOf(raw) != '"' {
		return "", wrongType(path, "a text", raw)
	}
	return jsonscan.Text(raw), nil
}

// choice reads into any string type through two closures.
type choice struct {
	get     func() string
	set     func(string)
	allowed []string
}

func newChoice[T ~string](p *T, allowed []T) choice {
	c := choice{
		get:     func() string { return string(*p) },
		set:     func(v string) { *p = T(v) },
		allowed: make([]string, len(allowed)),
	}
	for i, a := range allowed {
		c.allowed[i] = string(a)
	}
	return c
}

func (c choice) read(raw []byte, _ *Field, path string) error {
	v, err := readText(raw, path)
	if err != nil {
		return err
	}
	if !slices.Contains(c.allowed, v) {
		return fault.New(fault.NotAllowed, path,
			strconv.Quote(shorten(v))+" is not known here; allowed are "+strings.Join(c.allowed, ", "))
	}
	c.set(v)
	return nil
}

type pair struct{ p *[2]float64 }

func (c pair) read(raw []byte, f *Field, path string) error {
	var values []float64
	l := list[float64]{&values, func(v *float64) codec { return number{v} }}
	bounds := *f
	bounds.least, bounds.most = 2, 2
	if err := l.read(raw, &bounds, path); err != nil {
		return err
	}
	if values[0] > values[1] {
		return fault.New(fault.Contradiction, path, "the first number is the lower end and must not be above the second")
	}
	*c.p = [2]float64{values[0], values[1]}
	return nil
}

type list[T any] struct {
	p    *[]T
	item func(*T) codec
}

func (c list[T]) read(raw []byte, f *Field, path string) error {
	items, err := splitList(raw, path)
	if err != nil {
		return err
	}
	if f.most > 0 && (len(items) < f.least || len(items) > f.most) {
		return fault.New(fault.OutOfRange, path, "this list has "+strconv.Itoa(len(items))+" entries; allowed is "+strconv.Itoa(f.least)+" to "+strconv.Itoa(f.most))
	}
	entry := *f
	entry.least, entry.most = 0, 0
	values := make([]T, len(items))
	for i, item := range items {
		if err := c.item(&values[i]).read(item, &entry, path+"["+strconv.Itoa(i)+"]"); err != nil {
			return err
		}
	}
	*c.p = values
	return nil
}

type nested struct{ m Message }

func (c nested) read(raw []byte, _ *Field, path string) error { return readObject(raw, c.m, path) }

type optional[T any] struct {
	p  **T
	of func(*T) codec
}

func (c optional[T]) read(raw []byte, f *Field, path string) error {
	v := new(T)
	if err := c.of(v).read(raw, f, path); err != nil {
		return err
	}
	*c.p = v
	return nil
}

type anyValue struct{ p *[]byte }

func (c anyValue) read(raw []byte, _ *Field, _ string) error {
	*c.p = slices.Clone(raw)
	return nil
}
