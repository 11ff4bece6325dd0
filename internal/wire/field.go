package wire

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
	missing  bool   // there is nothing to write
	fallback string // JSON text of the default, empty for none

	// What the codecs need that is more than a pointer. Functions in place of
	// generic types, because the compiler makes three copies of a generic type's
	// every method.
	nested   Message
	word     string              // to be written
	words    []string            // the only ones that may be read, or those to be written
	setWords func(read []string) // keeps what was read
	// fresh makes an optional value and what reads it.
	fresh func() (codec, Message)
	// entries visits a list's entries; when n is not negative, it is first made
	// anew with n of them.
	entries func(n int, visit func(codec, Message) error) error
}

// codec is how one kind of variable is read, written and documented. It is a
// pointer, so that declaring a field allocates nothing.
type codec interface {
	read(raw []byte, f *Field, path string) error
	write(w *writer, f *Field)
	schema(s *schema, f *Field)
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
func (f *Field) Doc(doc, unit string) *Field {
	f.unit = unit
	if documented {
		f.doc = doc
	}
	return f
}

// entry is f as it is for each entry of its list.
func (f *Field) entry() *Field {
	entry := *f
	entry.least, entry.most = 0, 0
	return &entry
}
