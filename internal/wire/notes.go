package wire

import (
	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// readAnswer is how notes are read: they are written only.
func readAnswer(path string) error {
	return fault.New(fault.UnknownField, path, "this is part of an answer and cannot be sent")
}

// noteText writes one note as its sentence.
type noteText words.Note

func (*noteText) read(_ []byte, _ *Field, path string) error { return readAnswer(path) }
func (c *noteText) write(w *writer, _ *Field)                { w.text((*words.Note)(c).Text()) }
func (*noteText) schema(s *schema, _ *Field)                 { s.raw(`"type":"string"`) }

// noteCode writes one note as its code with its numbers.
type noteCode words.Note

func (*noteCode) read(_ []byte, _ *Field, path string) error { return readAnswer(path) }
func (c *noteCode) write(w *writer, f *Field)                { w.note((*words.Note)(c), f) }
func (*noteCode) schema(s *schema, _ *Field)                 { s.raw(codeSchema) }

// noteTexts writes notes as their sentences.
type noteTexts []words.Note

func (*noteTexts) read(_ []byte, _ *Field, path string) error { return readAnswer(path) }

func (c *noteTexts) write(w *writer, _ *Field) {
	w.list(len(*c), func(i int) { w.text((*c)[i].Text()) })
}

func (*noteTexts) schema(s *schema, _ *Field) {
	s.raw(`"type":"array","items":{"type":"string"}`)
}

// noteCodes writes notes as codes with their numbers.
type noteCodes []words.Note

func (*noteCodes) read(_ []byte, _ *Field, path string) error { return readAnswer(path) }

func (c *noteCodes) write(w *writer, f *Field) {
	w.list(len(*c), func(i int) { w.note(&(*c)[i], f) })
}

func (w *writer) note(n *words.Note, f *Field) {
	w.raw(`{"code":`)
	w.text(n.Code)
	w.raw(`,"values":{`)
	for i, v := range n.Values {
		if i > 0 {
			w.raw(",")
		}
		w.text(v.Name)
		w.raw(":")
		w.number(v.Number, f)
	}
	w.raw("}}")
}

func (*noteCodes) schema(s *schema, _ *Field) {
	s.raw(`"type":"array","items":{` + codeSchema + "}")
}

const codeSchema = `"type":"object","properties":{"code":{"type":"string"},` +
	`"values":{"type":"object","additionalProperties":{"type":"number"}}}`
