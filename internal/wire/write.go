package wire

import (
	"math"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
)

// Write returns m as JSON text: fields in declared order, absent ones left out,
// numbers in their shortest form that reads back the same. A number that is
// not finite is our mistake and gives an internal error instead of bad JSON.
func Write(m Message) ([]byte, error) {
	w := &writer{}
	w.object(m)
	if w.broken != "" {
		return nil, fault.New(fault.Internal, w.broken, "the calculation gave no finite number here; this is our mistake")
	}
	return w.out, nil
}

type writer struct {
	out    []byte
	broken string // name of the first field that held no finite number
}

func (w *writer) raw(text string)  { w.out = append(w.out, text...) }
func (w *writer) text(text string) { w.out = jsonscan.AppendText(w.out, text) }

func (w *writer) number(v float64, f *Field) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		if w.broken == "" {
			w.broken = f.name
		}
		return
	}
	w.out = strconv.AppendFloat(w.out, v+0, 'g', -1, 64)
}

func (w *writer) object(m Message) {
	o := objects.Get().(*Object)
	defer o.release()
	m.Fields(o)
	w.raw("{")
	first := true
	for _, f := range o.fields {
		absent := f.value.absent() && !f.required
		if absent && !f.orNull {
			continue
		}
		if !first {
			w.raw(",")
		}
		first = false
		w.text(f.name)
		w.raw(":")
		if absent {
			w.raw("null")
		} else {
			f.value.write(w, f)
		}
	}
	w.raw("}")
}

func (w *writer) list(n int, entry func(i int)) {
	w.raw("[")
	for i := range n {
		if i > 0 {
			w.raw(",")
		}
		entry(i)
	}
	w.raw("]")
}

func (c number) write(w *writer, f *Field)   { w.number(*c.p, f) }
func (c integer) write(w *writer, _ *Field)  { w.raw(strconv.Itoa(*c.p)) }
func (c boolean) write(w *writer, _ *Field)  { w.raw(strconv.FormatBool(*c.p)) }
func (c text) write(w *writer, _ *Field)     { w.text(*c.p) }
func (c quantity) write(w *writer, _ *Field) { w.text(*c.p) }
func (c choice) write(w *writer, _ *Field)   { w.text(c.get()) }
func (c nested) write(w *writer, _ *Field)   { w.object(c.m) }
func (c anyValue) write(w *writer, _ *Field) { w.raw(string(*c.p)) }
func (c pair) write(w *writer, f *Field) {
	w.list(2, func(i int) { w.number(c.p[i], f) })
}
func (c list[T]) write(w *writer, f *Field) {
	w.list(len(*c.p), func(i int) { c.item(&(*c.p)[i]).write(w, f) })
}
func (c optional[T]) write(w *writer, f *Field) { c.of(*c.p).write(w, f) }

func (number) absent() bool        { return false }
func (integer) absent() bool       { return false }
func (boolean) absent() bool       { return false }
func (text) absent() bool          { return false }
func (quantity) absent() bool      { return false }
func (choice) absent() bool        { return false }
func (nested) absent() bool        { return false }
func (pair) absent() bool          { return false }
func (c anyValue) absent() bool    { return len(*c.p) == 0 }
func (c list[T]) absent() bool     { return *c.p == nil }
func (c optional[T]) absent() bool { return *c.p == nil }
