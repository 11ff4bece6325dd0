package wire

import "tautspan/internal/jsonscan"

// Member is one name of a JSON object with the text of its value.
type Member = jsonscan.Member

// Members takes one JSON object apart, in the order in which its names stand.
// Any failure is a *fault.Error. The values share data's memory.
func Members(data []byte) ([]Member, error) {
	if err := checkSyntax(data); err != nil {
		return nil, err
	}
	return MembersOf(data)
}

// MembersOf is Members for data that is known to be JSON, a part of what was
// read before for instance.
func MembersOf(data []byte) ([]Member, error) {
	parts, err := takeApart(data, "")
	if err != nil {
		return nil, err
	}
	return parts.all, nil
}

// ReadOf is Read for data that is known to be JSON.
func ReadOf(data []byte, m Message) error { return readObject(data, m, "") }

// AppendText appends text to out as a JSON string; what is no UTF-8 becomes
// replacement characters.
func AppendText(out []byte, text string) []byte { return jsonscan.AppendText(out, text) }

// Names lists the fields m declares, in their order.
func Names(m Message) []string {
	o := &Object{}
	m.Fields(o)
	names := make([]string, len(o.fields))
	for i, f := range o.fields {
		names[i] = f.name
	}
	return names
}
