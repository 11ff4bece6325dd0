package wire

import (
	"bytes"
	"math"
	"strconv"
	"sync"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
)

// Write returns m as JSON text: fields in declared order, absent ones left out,
// numbers in their shortest form that reads back the same. A number that is
// not finite is our mistake and gives an internal error instead of bad JSON.
func Write(m Message) ([]byte, error) {
	w := writers.Get().(*writer)
	defer writers.Put(w)
	w.out, w.broken = w.out[:0], ""
	w.object(m)
	if w.broken != "" {
		return nil, fault.New(fault.Internal, w.broken, "the calculation gave no finite number here; this is our mistake")
	}
	return bytes.Clone(w.out), nil
}

// writers keeps the room of what was written for what will be.
var writers = sync.Pool{New: func() any { return &writer{} }}

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
	o := room.Get().(*Object)
	defer o.release()
	o.writer = w
	w.raw("{")
	m.Fields(o)
	o.writeLast()
	w.raw("}")
}

// writeLast writes the field declared last, which by now has all it was given.
func (o *Object) writeLast() {
	w, f := o.writer, &o.last
	if f.value == nil {
		return
	}
	absent := f.missing && !f.required
	if !absent || f.orNull {
		if o.filled {
			w.raw(",")
		}
		o.filled = true
		w.out = append(append(append(w.out, '"'), f.name...), `":`...)
		if absent {
			w.raw("null")
		} else {
			f.value.write(w, f)
		}
	}
	f.value = nil
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

func (c *number) write(w *writer, f *Field)   { w.number(float64(*c), f) }
func (c *integer) write(w *writer, _ *Field)  { w.out = strconv.AppendInt(w.out, int64(*c), 10) }
func (c *boolean) write(w *writer, _ *Field)  { w.out = strconv.AppendBool(w.out, bool(*c)) }
func (c *text) write(w *writer, _ *Field)     { w.text(string(*c)) }
func (c *quantity) write(w *writer, _ *Field) { w.text(string(*c)) }
func (*word) write(w *writer, f *Field)       { w.text(f.word) }
func (c *anyValue) write(w *writer, _ *Field) { w.out = append(w.out, *c...) }
func (c *pair) write(w *writer, f *Field) {
	w.list(2, func(i int) { w.number(c[i], f) })
}
