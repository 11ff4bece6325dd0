package wire

import "strconv"

// Schema returns the JSON Schema (2020-12, as OpenAPI 3.1 uses it) of m as JSON
// text. m's values do not matter.
func Schema(m Message) []byte {
	s := &schema{}
	s.raw("{")
	s.message(m)
	s.raw("}")
	return s.out
}

// schema is a writer that describes instead of writing values. Its methods
// write the members of a schema object; the caller writes the braces.
type schema struct{ writer }

func (s *schema) message(m Message) {
	o := &Object{}
	m.Fields(o)
	if o.tag == nil {
		s.properties(o)
		return
	}
	kinds := o.tag.words
	s.raw(`"oneOf":`)
	s.list(len(kinds), func(i int) {
		variant := &Object{tagValue: kinds[i]}
		m.Fields(variant)
		s.raw("{")
		s.properties(variant)
		s.raw("}")
	})
}

func (s *schema) properties(o *Object) {
	s.raw(`"type":"object","additionalProperties":false,"properties":{`)
	required := []string{}
	for i, f := range o.fields {
		if i > 0 {
			s.raw(",")
		}
		s.text(f.name)
		s.raw(":{")
		s.field(o, f)
		s.raw("}")
		if f.required {
			required = append(required, f.name)
		}
	}
	s.raw(`},"required":`)
	s.list(len(required), func(i int) { s.text(required[i]) })
}

// field writes what one field is for, then its kind and limits.
func (s *schema) field(o *Object, f *Field) {
	if f.doc != "" {
		s.raw(`"description":`)
		if f.unit != "" {
			s.text(f.doc + " (" + f.unit + ")")
		} else {
			s.text(f.doc)
		}
		s.raw(",")
	}
	if f.fallback != "" {
		s.raw(`"default":` + f.fallback + ",")
	}
	switch {
	case f == o.tag && o.tagValue != "":
		s.raw(`"const":`)
		s.text(o.tagValue)
	case f.orNull:
		s.raw(`"anyOf":[{"type":"null"},{`)
		f.value.schema(s, f)
		s.raw("}]")
	default:
		f.value.schema(s, f)
	}
}

func (s *schema) bounds(kind string, f *Field) {
	s.raw(`"type":"` + kind + `"`)
	if f.bounded {
		s.raw(`,"minimum":` + show(f.lo) + `,"maximum":` + show(f.hi))
	}
}

func (s *schema) size(what string, f *Field) {
	if f.most > 0 {
		s.raw(`,"min` + what + `":` + strconv.Itoa(f.least) + `,"max` + what + `":` + strconv.Itoa(f.most))
	}
}

// items writes the beginning of a list's schema, up to that of its entries.
func (s *schema) items(f *Field) {
	s.raw(`"type":"array"`)
	s.size("Items", f)
	s.raw(`,"items":{`)
}

func (*number) schema(s *schema, f *Field)  { s.bounds("number", f) }
func (*integer) schema(s *schema, f *Field) { s.bounds("integer", f) }
func (*boolean) schema(s *schema, _ *Field) { s.raw(`"type":"boolean"`) }
func (*anyValue) schema(s *schema, _ *Field) {
	s.raw(`"type":["object","array","string","number","boolean","null"]`)
}

func (*text) schema(s *schema, f *Field) {
	s.raw(`"type":"string"`)
	s.size("Length", f)
}

func (*quantity) schema(s *schema, _ *Field) { s.raw(`"type":["number","string"]`) }

func (*word) schema(s *schema, f *Field) {
	s.raw(`"type":"string","enum":`)
	s.list(len(f.words), func(i int) { s.text(f.words[i]) })
}

func (*pair) schema(s *schema, f *Field) {
	s.raw(`"type":"array","minItems":2,"maxItems":2,"items":{`)
	s.bounds("number", f)
	s.raw("}")
}
