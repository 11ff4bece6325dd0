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

// Object takes the fields of one message. The methods below declare one field
// each; every declaration returns a *Field to state what is allowed.
type Object struct {
	fields []*Field
	room   []Field // where the fields are
	// writer is non-nil while writing: each field is written, from last, when the
	// next is declared, so that a thousand fields take the room of one.
	writer *writer
	last   Field
	filled bool // a field was written
	// source is non-nil while reading, so that Tag can decide at once.
	source *members
	// tag is the field declared by Tag, nil when there is none.
	tag *Field
	// tagValue is what Tag sets while the schema of one variant is made.
	tagValue string
	fault    error
}

// room keeps the room of messages that were read or written for the next ones.
var room = sync.Pool{New: func() any { return &Object{} }}

// release gives the object's room back.
func (o *Object) release() {
	clear(o.fields)
	clear(o.room)
	*o = Object{fields: o.fields[:0], room: o.room[:0]}
	room.Put(o)
}

func (o *Object) add(name string, value codec) *Field {
	if o.writer != nil {
		o.writeLast()
		o.last = Field{name: name, value: value}
		return &o.last
	}
	if len(o.room) == cap(o.room) { // fields are made by the dozen: reading is mostly this
		o.room = make([]Field, 0, 16)
	}
	o.room = append(o.room, Field{name: name, value: value})
	f := &o.room[len(o.room)-1]
	o.fields = append(o.fields, f)
	return f
}

// Number declares a real number.
func (o *Object) Number(name string, p *float64) *Field { return o.add(name, (*number)(p)) }

// OptionalNumber declares a real number that may be absent (nil).
func (o *Object) OptionalNumber(name string, p **float64) *Field {
	return addOptional(o, name, p, func(v *float64) codec { return (*number)(v) })
}

// Integer declares a whole number; 16 and 16.0 are the same.
func (o *Object) Integer(name string, p *int) *Field { return o.add(name, (*integer)(p)) }

// OptionalInteger declares a whole number that may be absent (nil).
func (o *Object) OptionalInteger(name string, p **int) *Field {
	return addOptional(o, name, p, func(v *int) codec { return (*integer)(v) })
}

// Boolean declares true or false.
func (o *Object) Boolean(name string, p *bool) *Field { return o.add(name, (*boolean)(p)) }

// OptionalBoolean declares true, false or absent (nil).
func (o *Object) OptionalBoolean(name string, p **bool) *Field {
	return addOptional(o, name, p, func(v *bool) codec { return (*boolean)(v) })
}

// Text declares a text; state its greatest length with Length.
func (o *Object) Text(name string, p *string) *Field { return o.add(name, (*text)(p)) }

// OptionalText declares a text that may be absent (nil).
func (o *Object) OptionalText(name string, p **string) *Field {
	return addOptional(o, name, p, func(v *string) codec { return (*text)(v) })
}

// OptionalQuantity declares a number, or a text that holds one ("1/16"), that
// may be absent (nil). It is kept as text for the message's owner to parse.
func (o *Object) OptionalQuantity(name string, p **string) *Field {
	return addOptional(o, name, p, func(v *string) codec { return (*quantity)(v) })
}

// Numbers declares a list of real numbers; Between bounds each, Length the list.
func (o *Object) Numbers(name string, p *[]float64) *Field {
	return addList(o, name, p, func(v *float64) codec { return (*number)(v) })
}

// Integers declares a list of whole numbers; Between bounds each, Length the list.
func (o *Object) Integers(name string, p *[]int) *Field {
	return addList(o, name, p, func(v *int) codec { return (*integer)(v) })
}

// Texts declares a list of texts.
func (o *Object) Texts(name string, p *[]string) *Field {
	return addList(o, name, p, func(v *string) codec { return (*text)(v) })
}

// Pair declares a list of exactly two numbers, [low, high], that may be absent
// (nil). Reading refuses low > high.
func (o *Object) Pair(name string, p **[2]float64) *Field {
	return addOptional(o, name, p, func(v *[2]float64) codec { return (*pair)(v) })
}

// Raw declares a JSON value of any kind, kept as its text.
func (o *Object) Raw(name string, p *[]byte) *Field {
	f := o.add(name, (*anyValue)(p))
	f.missing = len(*p) == 0
	return f
}

// RawList declares a list of JSON values of any kind, each kept as its text.
func (o *Object) RawList(name string, p *[][]byte) *Field {
	return addList(o, name, p, func(v *[]byte) codec { return (*anyValue)(v) })
}

// Choice declares a text that must be one of the allowed words.
func Choice[T ~string](o *Object, name string, p *T, allowed ...T) *Field {
	f := o.add(name, (*word)(nil))
	if o.writer != nil {
		f.word = string(*p)
		return f
	}
	f.setWords = func(read []string) { *p = T(read[0]) }
	f.words = textsOf(allowed)
	return f
}

// Choices declares a list of texts, each one of the allowed words.
func Choices[T ~string](o *Object, name string, p *[]T, allowed ...T) *Field {
	f := o.add(name, (*wordList)(nil))
	f.missing = *p == nil
	if o.writer != nil {
		f.words = textsOf(*p)
		return f
	}
	f.setWords = func(read []string) {
		*p = make([]T, len(read))
		for i, v := range read {
			(*p)[i] = T(v)
		}
	}
	f.words = textsOf(allowed)
	return f
}

func textsOf[T ~string](list []T) []string {
	texts := make([]string, len(list))
	for i, v := range list {
		texts[i] = string(v)
	}
	return texts
}

// Notes declares, for writing only, two lists side by side: the sentences of
// the notes under plural ("reasons") and their codes and numbers under
// singular_codes ("reason_codes"), entry for entry.
func (o *Object) Notes(plural, singular string, p *[]words.Note) {
	o.add(plural, (*noteTexts)(p)).Required().Doc("plain sentences", "")
	o.add(singular+"_codes", (*noteCodes)(p)).Required().
		Doc("the same as codes with the numbers in them", "")
}

// Note declares, for writing only, the sentence of one note under name and its
// code and numbers under name_code.
func (o *Object) Note(name, doc string, p *words.Note) {
	o.add(name, (*noteText)(p)).Required().Doc(doc, "")
	o.add(name+"_code", (*noteCode)(p)).Required().Doc("the same as a code with the numbers in it", "")
}

// Nested declares an object inside this one.
func Nested(o *Object, name string, m Message) *Field {
	f := o.add(name, (*nested)(nil))
	f.nested = m
	return f
}

// pointer is a *T that is a Message.
type pointer[T any] interface {
	*T
	Message
}

// Optional declares an object that may be absent (nil).
func Optional[T any, P pointer[T]](o *Object, name string, p **T) *Field {
	if o.writer != nil && *p != nil {
		return Nested(o, name, P(*p))
	}
	f := o.add(name, (*optional)(nil))
	f.missing = *p == nil
	f.fresh = func() (codec, Message) {
		*p = new(T)
		return (*nested)(nil), P(*p)
	}
	return f
}

// List declares a list of objects; Length bounds the list.
func List[T any, P pointer[T]](o *Object, name string, p *[]T) *Field {
	f := o.add(name, (*list)(nil))
	f.missing = *p == nil
	f.entries = func(n int, visit func(codec, Message) error) error {
		if n >= 0 {
			*p = make([]T, n)
		}
		for i := range *p {
			if err := visit((*nested)(nil), P(&(*p)[i])); err != nil {
				return err
			}
		}
		return nil
	}
	return f
}

// Tag declares the field that decides which variant a message is. It is read
// before anything else, so that Fields may switch on it.
func Tag[T ~string](o *Object, name string, p *T, allowed ...T) *Field {
	f := Choice(o, name, p, allowed...).Required()
	o.tag = f
	switch {
	case o.source != nil && o.fault == nil:
		o.fault = o.source.readField(f)
	case o.tagValue != "":
		*p = T(o.tagValue)
	}
	return f
}
