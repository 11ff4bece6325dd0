package wire

// nested is the object in Field.nested.
type nested struct{}

func (*nested) read(raw []byte, f *Field, path string) error { return readObject(raw, f.nested, path) }
func (*nested) write(w *writer, f *Field)                    { w.object(f.nested) }
func (*nested) schema(s *schema, f *Field)                   { s.message(f.nested) }

// addOptional adds what may be absent (nil). What is there is written like any
// other value.
func addOptional[T any](o *Object, name string, p **T, of func(*T) codec) *Field {
	if o.writer != nil && *p != nil {
		return o.add(name, of(*p))
	}
	f := o.add(name, (*optional)(nil))
	f.missing = *p == nil
	f.fresh = func() (codec, Message) {
		*p = new(T)
		return of(*p), nil
	}
	return f
}

// optional is a value that is absent when it is written, or made when it is read.
type optional struct{}

func (*optional) read(raw []byte, f *Field, path string) error {
	value, m := f.fresh()
	f.nested = m
	return value.read(raw, f, path)
}

func (*optional) write(w *writer, _ *Field) { w.raw("null") }

func (*optional) schema(s *schema, f *Field) {
	value, m := f.fresh()
	f.nested = m
	value.schema(s, f)
}

// addList adds a list of anything but objects.
func addList[T any](o *Object, name string, p *[]T, of func(*T) codec) *Field {
	f := o.add(name, (*list)(nil))
	f.missing = *p == nil
	f.entries = func(n int, visit func(codec, Message) error) error {
		if n >= 0 {
			*p = make([]T, n)
		}
		for i := range *p {
			if err := visit(of(&(*p)[i]), nil); err != nil {
				return err
			}
		}
		return nil
	}
	return f
}

// list is what Field.entries visits.
type list struct{}

func (*list) read(raw []byte, f *Field, path string) error {
	items, err := splitList(raw, f, path)
	if err != nil {
		return err
	}
	entry, i := f.entry(), 0
	return f.entries(len(items), func(value codec, m Message) error {
		entry.nested = m
		i++
		return value.read(items[i-1], entry, entryPath(path, i-1))
	})
}

func (*list) write(w *writer, f *Field) {
	entry := f.entry()
	between := "["
	_ = f.entries(-1, func(value codec, m Message) error { // visit gives no error
		w.raw(between)
		between = ","
		entry.nested = m
		value.write(w, entry)
		return nil
	})
	if between == "[" {
		w.raw("[")
	}
	w.raw("]")
}

func (*list) schema(s *schema, f *Field) {
	s.items(f)
	entry := f.entry()
	_ = f.entries(1, func(value codec, m Message) error { // visit gives no error
		entry.nested = m
		value.schema(s, entry)
		return nil
	})
	s.raw("}")
}

// wordList is a list of words.
type wordList struct{}

func (*wordList) read(raw []byte, f *Field, path string) error {
	items, err := splitList(raw, f, path)
	if err != nil {
		return err
	}
	words := make([]string, len(items))
	for i, item := range items {
		if words[i], err = readWord(item, f, entryPath(path, i)); err != nil {
			return err
		}
	}
	f.setWords(words)
	return nil
}

func (*wordList) write(w *writer, f *Field) {
	w.list(len(f.words), func(i int) { w.text(f.words[i]) })
}

func (*wordList) schema(s *schema, f *Field) {
	s.items(f)
	(*word)(nil).schema(s, f)
	s.raw("}")
}
