// Package wire reads, writes and documents JSON messages from one description
// per message: a method Fields that names each field, points at the variable
// behind it and states what is allowed. Reading refuses whatever was not
// declared (unknown and repeated names, wrong types, values out of range) with
// a *fault.Error naming the field; nothing is clamped or guessed. Writing gives
// the same bytes for the same values. The schema feeds the OpenAPI document.
//
// It uses no reflection, which keeps the WebAssembly build small.
package wire

import (
	"sync"

	"tautspan/internal/words"
)

// Message is a JSON object. Fields declares its fields in the order in which
// they are written; it must not depend on the values, except on one set by Tag.
type Message interface{ Fields(o *Object) }

// Object collects the fields of one message. The methods below declare one
// field each; every declaration returns a *Field to state what is allowed.
type Object struct {
	fields []*Field
	room   []Field // where the fields are
	// source is non-nil while reading, so that Tag can decide at once.
	source *members
	// tag is the field declared by Tag, nil when there is none.
	tag *Field
	// tagValue is what Tag sets while the schema of one variant is made.
	tagValue string
	fault    error
}

// objects keeps the room of messages that were read or written for the next ones.
var objects = sync.Pool{New: func() any { return &Object{} }}

// release gives the object's room back.
func (o *Object) release() {
	clear(o.fields)
	clear(o.room)
	*o = Object{fields: o.fields[:0], room: o.room[:0]}
	objects.Put(o)
}

// Field is one declared field.
type Field struct {
	name     string
	value    codec
	doc      string
	unit     string
	lo, hi   float64
	bounded  bool
	least    int
	most     int
	required bool
	orNull   bool
	fallback string // JSON text of the default, empty for none
}

// codec is how one kind of variable is read, written and documented.
type codec interface {
	read(raw []byte, f *Field, path string) error
	write(w *writer, f *Field)
	schema(s *schema, f *Field)
	absent() bool // true when there is nothing to write
}

func (o *Object) add(name string, value codec) *Field {
	if len(o.room) == cap(o.room) { // fields are made by the dozen: reading is mostly this
		o.room = make([]Field, 0, 16)
	}
	o.room = append(o.room, Field{name: name, value: value})
	f := &o.room[len(o.room)-1]
	o.fields = append(o.fields, f)
	return f
}

// Required makes the field's absence an error.
func (f *Field) Required() *Field { f.required = true; return f }

// Between states the allowed range of a number, or of each number in a list,
// both ends included.
func (f *Field) Between(lo, hi float64) *Field {
	f.lo, f.hi, f.bounded = lo, hi, true
	return f
}

// Length states how many entries a list, or how many characters a text, may have.
func (f *Field) Length(least, most int) *Field { f.least, f.most = least, most; return f }

// Default states, as JSON text, the value an absent field gets when reading.
func (f *Field) Default(json string) *Field { f.fallback = json; return f }

// OrNull writes null in place of an absent value instead of leaving it out.
func (f *Field) OrNull() *Field { f.orNull = true; return f }

// Doc says what the field means; unit is "mm", "km", "percent" and so on, or
// empty for a pure number or a text.
func (f *Field) Doc(doc, unit string) *Field { f.doc, f.unit = doc, unit; return f }

// Number declares a real number.
func (o *Object) Number(name string, p *float64) *Field { return o.add(name, number{p}) }

// OptionalNumber declares a real number that may be absent (nil).
func (o *Object) OptionalNumber(name string, p **float64) *Field {
	return o.add(name, optional[float64]{p, func(v *float64) codec { return number{v} }})
}

// Integer declares a whole number; 16 and 16.0 are the same.
func (o *Object) Integer(name string, p *int) *Field { return o.add(name, integer{p}) }

// OptionalInteger declares a whole number that may be absent (nil).
func (o *Object) OptionalInteger(name string, p **int) *Field {
	return o.add(name, optional[int]{p, func(v *int) codec { return integer{v} }})
}

// Boolean declares true or false.
func (o *Object) Boolean(name string, p *bool) *Field { return o.add(name, boolean{p}) }

// OptionalBoolean declares true, false or absent (nil).
func (o *Object) OptionalBoolean(name string, p **bool) *Field {
	return o.add(name, optional[bool]{p, func(v *bool) codec { return boolean{v} }})
}

// Text declares a text; state its greatest length with Length.
func (o *Object) Text(name string, p *string) *Field { return o.add(name, text{p}) }

// OptionalText declares a text that may be absent (nil).
func (o *Object) OptionalText(name string, p **string) *Field {
	return o.add(name, optional[string]{p, func(v *string) codec { return text{v} }})
}

// OptionalQuantity declares a number, or a text that holds one ("1/16"), that
// may be absent (nil). It is kept as text for the message's owner to parse.
func (o *Object) OptionalQuantity(name string, p **string) *Field {
	return o.add(name, optional[string]{p, func(v *string) codec { return quantity{v} }})
}

// Numbers declares a list of real numbers; Between bounds each, Length the list.
func (o *Object) Numbers(name string, p *[]float64) *Field {
	return o.add(name, list[float64]{p, func(v *float64) codec { return number{v} }})
}

// Integers declares a list of whole numbers; Between bounds each, Length the list.
func (o *Object) Integers(name string, p *[]int) *Field {
	return o.add(name, list[int]{p, func(v *int) codec { return integer{v} }})
}

// Texts declares a list of texts.
func (o *Object) Texts(name string, p *[]string) *Field {
	return o.add(name, list[string]{p, func(v *string) codec { return text{v} }})
}

// Pair declares a list of exactly two numbers, [low, high], that may be absent
// (nil). Reading refuses low > high.
func (o *Object) Pair(name string, p **[2]float64) *Field {
	return o.add(name, optional[[2]float64]{p, func(v *[2]float64) codec { return pair{v} }})
}

// Choice declares a text that must be one of the allowed words.
func Choice[T ~string](o *Object, name string, p *T, allowed ...T) *Field {
	return o.add(name, newChoice(p, allowed))
}

// Choices declares a list of texts, each one of the allowed words.
func Choices[T ~string](o *Object, name string, p *[]T, allowed ...T) *Field {
	return o.add(name, list[T]{p, func(v *T) codec { return newChoice(v, allowed) }})
}

// Raw declares a JSON value of any kind, kept as its text.
func (o *Object) Raw(name string, p *[]byte) *Field { return o.add(name, anyValue{p}) }

// Notes declares, for writing only, two lists side by side: the sentences of
// the notes under plural ("reasons") and their codes and numbers under
// singular_codes ("reason_codes"), entry for entry.
func (o *Object) Notes(plural, singular string, p *[]words.Note) {
	o.add(plural, noteTexts{p: p}).Required().Doc("plain sentences", "")
	o.add(singular+"_codes", noteCodes{p: p}).Required().
		Doc("the same as codes with the numbers in them", "")
}

// Note declares, for writing only, the sentence of one note under name and its
// code and numbers under name_code.
func (o *Object) Note(name, doc string, p *words.Note) {
	o.add(name, noteText{p: p}).Required().Doc(doc, "")
	o.add(name+"_code", noteCode{p: p}).Required().Doc("the same as a code with the numbers in it", "")
}

// Nested declares an object inside this one.
func Nested(o *Object, name string, m Message) *Field { return o.add(name, nested{m}) }

// pointer is a *T that is a Message.
type pointer[T any] interface {
	*T
	Message
}

// Optional declares an object that may be absent (nil).
func Optional[T any, P pointer[T]](o *Object, name string, p **T) *Field {
	return o.add(name, optional[T]{p, func(v *T) codec { return nested{P(v)} }})
}

// List declares a list of objects; Length bounds the list.
func List[T any, P pointer[T]](o *Object, name string, p *[]T) *Field {
	return o.add(name, list[T]{p, func(v *T) codec { return nested{P(v)} }})
}

// Tag declares the field that decides which variant a message is. It is read
// before anything else, so that Fields may switch on it.
func Tag[T ~string](o *Object, name string, p *T, allowed ...T) *Field {
	f := o.add(name, newChoice(p, allowed)).Required()
	o.tag = f
	switch {
	case o.source != nil && o.fault == nil:
		o.fault = o.source.readField(f)
	case o.tagValue != "":
		*p = T(o.tagValue)
	}
	return f
}
