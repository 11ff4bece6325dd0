package wire

import (
	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// answerOnly is the part shared by notes: they are written and never read.
type answerOnly struct{}

func (answerOnly) absent() bool { return false }

func (answerOnly) read(_ []byte, _ *Field, path string) error {
	return fault.New(fault.UnknownField, path, "this is part of an answer and cannot be sent")
}

// noteText writes one note as its sentence.
type noteText struct {
	answerOnly
	p *words.Note
}

func (c noteText) write(w *writer, _ *Field) { w.text(c.p.Text()) }
func (noteText) schema(s *schema, _ *Field)  { s.raw(`"type":"string"`) }

// noteCode writes one note as its code with its numbers.
type noteCode struct {
	answerOnly
	p *words.Note
}

func (c noteCode) write(w *writer, f *Field) { w.note(c.p, f) }
func (noteCode) schema(s *schema, _ *Field)  { s.raw(codeSchema) }

// noteTexts writes notes as their sentences.
type noteTexts struct {
	answerOnly
	p *[]words.Note
}

func (c noteTexts) write(w *writer, _ *Field) {
	w.list(len(*c.p), func(i int) { w.text((*c.p)[i].Text()) })
}

func (noteTexts) schema(s *schema, _ *Field) {
	s.raw(`"type":"array","items":{"type":"string"}`)
}

// noteCodes writes notes as codes with their numbers.
type noteCodes struct {
	answerOnly
	p *[]words.Note
}

func (c noteCodes) write(w *writer, f *Field) {
	w.list(len(*c.p), func(i int) { w.note(&(*c.p)[i], f) })
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

func (noteCodes) schema(s *schema, _ *Field) {
	s.raw(`"type":"array","items":{` + codeSchema + "}")
}

const codeSchema = `"type":"object","properties":{"code":{"type":"string"},` +
	`"values":{"type":"object","additionalProperties":{"type":"number"}}}`
