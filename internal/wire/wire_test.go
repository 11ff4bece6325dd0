package wire_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

type shape struct {
	Kind   string
	Side   float64
	Radius *float64
}

func (s *shape) Fields(o *wire.Object) {
	wire.Tag(o, "kind", &s.Kind, "square", "circle")
	switch s.Kind {
	case "square":
		o.Number("side_mm", &s.Side).Between(1, 9).Required().Doc("edge", "mm")
	case "circle":
		o.OptionalNumber("radius_mm", &s.Radius).Between(1, 9).OrNull()
	}
}

type drawing struct {
	Title  string
	Scale  float64
	Teeth  []int
	Shapes []shape
	Range  *[2]float64
	Open   bool
}

func (d *drawing) Fields(o *wire.Object) {
	o.Text("title", &d.Title).Length(1, 10).Required()
	o.Number("scale", &d.Scale).Between(0.1, 10).Default("1.5")
	o.Integers("teeth", &d.Teeth).Between(8, 60).Length(1, 3)
	wire.List(o, "shapes", &d.Shapes).Length(0, 2)
	o.Pair("range", &d.Range).Between(0, 10)
	o.Boolean("open", &d.Open)
}

func TestRead_OK(t *testing.T) {
	var d drawing
	require.NoError(t, wire.Read([]byte(` {"shapes":[{"side_mm":2,"kind":"square"}],"teeth":[11,52.0],
		"title":"\u00e4b","range":[1,2],"open":true} `), &d))
	assert.Equal(t, drawing{Title: "äb", Scale: 1.5, Teeth: []int{11, 52}, Open: true,
		Shapes: []shape{{Kind: "square", Side: 2}}, Range: &[2]float64{1, 2}}, d)
}

func TestRead_bad(t *testing.T) {
	for _, row := range []struct {
		name, json string
		code       fault.Code
		field      string
	}{
		{"empty", ``, fault.InvalidJSON, ""},
		{"truncated", `{"title":"a"`, fault.InvalidJSON, ""},
		{"two values", `{"title":"a"} {}`, fault.InvalidJSON, ""},
		{"not an object", `[1]`, fault.WrongType, ""},
		{"NaN", `{"scale":NaN}`, fault.InvalidJSON, "scale"},
		{"name twice", `{"title":"a","title":"b"}`, fault.InvalidJSON, "title"},
		{"bad UTF-8", "{\"title\":\"\xff\"}", fault.InvalidJSON, "title"},
		{"unknown field", `{"title":"a","scael":1}`, fault.UnknownField, "scael"},
		{"missing", `{}`, fault.MissingField, "title"},
		{"null", `{"title":null}`, fault.WrongType, "title"},
		{"text for number", `{"title":"a","scale":"1"}`, fault.WrongType, "scale"},
		{"number for text", `{"title":1}`, fault.WrongType, "title"},
		{"number for boolean", `{"title":"a","open":1}`, fault.WrongType, "open"},
		{"object for list", `{"title":"a","teeth":{}}`, fault.WrongType, "teeth"},
		{"list for object", `{"title":"a","shapes":[[]]}`, fault.WrongType, "shapes[0]"},
		{"too long a text", `{"title":"elevenbytes"}`, fault.OutOfRange, "title"},
		{"too small", `{"title":"a","scale":0.09}`, fault.OutOfRange, "scale"},
		{"overflow", `{"title":"a","scale":1e999}`, fault.OutOfRange, "scale"},
		{"fraction", `{"title":"a","teeth":[11.5]}`, fault.WrongType, "teeth[0]"},
		{"entry out of range", `{"title":"a","teeth":[11,7]}`, fault.OutOfRange, "teeth[1]"},
		{"empty list", `{"title":"a","teeth":[]}`, fault.OutOfRange, "teeth"},
		{"long list", `{"title":"a","teeth":[9,9,9,9]}`, fault.OutOfRange, "teeth"},
		{"pair of one", `{"title":"a","range":[1]}`, fault.OutOfRange, "range"},
		{"pair reversed", `{"title":"a","range":[2,1]}`, fault.Contradiction, "range"},
		{"no tag", `{"title":"a","shapes":[{}]}`, fault.MissingField, "shapes[0].kind"},
		{"bad tag", `{"title":"a","shapes":[{"kind":"blob"}]}`, fault.NotAllowed, "shapes[0].kind"},
		{"other variant", `{"title":"a","shapes":[{"kind":"circle","side_mm":2}]}`, fault.UnknownField, "shapes[0].side_mm"},
		{"nested bad JSON", `{"title":"a","shapes":[{"kind":"square","side_mm":Infinity}]}`, fault.InvalidJSON, "shapes[0].side_mm"},
		{"deep", strings.Repeat("[", 20000), fault.InvalidJSON, "*"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var f *fault.Error
			require.True(t, errors.As(wire.Read([]byte(row.json), &drawing{}), &f))
			assert.Equal(t, row.code, f.Code)
			if row.field != "*" {
				assert.Equal(t, row.field, f.Field)
			}
			assert.NotEmpty(t, f.Message)
			assert.Less(t, len(f.Message), 400)
		})
	}
}

func TestWrite(t *testing.T) {
	d := drawing{Title: "q\"", Scale: 0.1, Shapes: []shape{{Kind: "circle"}}, Range: &[2]float64{0, 1e-9}}
	out, err := wire.Write(&d)
	require.NoError(t, err)
	assert.JSONEq(t, `{"title":"q\"","scale":0.1,"shapes":[{"kind":"circle","radius_mm":null}],"range":[0,1e-9],"open":false}`, string(out))

	d.Scale = math.Inf(1)
	_, err = wire.Write(&d)
	assert.ErrorContains(t, err, "scale")
}

func TestSchema(t *testing.T) {
	var s map[string]any
	require.NoError(t, json.Unmarshal(wire.Schema(&drawing{}), &s))
	properties := s["properties"].(map[string]any)
	assert.Len(t, properties, 6)
	assert.Equal(t, []any{"title"}, s["required"])
	assert.Equal(t, map[string]any{"type": "number", "minimum": 0.1, "maximum": 10.0, "default": 1.5}, properties["scale"])
	variants := properties["shapes"].(map[string]any)["items"].(map[string]any)["oneOf"].([]any)
	assert.Len(t, variants, 2)
}

// FuzzRead holds that any bytes either read, and then write to JSON that reads
// back to the same bytes, or give a *fault.Error.
func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"title":"a","shapes":[{"kind":"square","side_mm":2}],"range":[1,2]}`))
	f.Add([]byte(`{"title":"a","teeth":[1e400]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var d drawing
		if err := wire.Read(data, &d); err != nil {
			var known *fault.Error
			require.True(t, errors.As(err, &known))
			return
		}
		once, err := wire.Write(&d)
		require.NoError(t, err)
		var again drawing
		require.NoError(t, wire.Read(once, &again))
		twice, err := wire.Write(&again)
		require.NoError(t, err)
		assert.Equal(t, string(once), string(twice))
	})
}
