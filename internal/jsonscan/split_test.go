package jsonscan_test

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/jsonscan"
)

// rebuilt takes a text apart and puts it together again with every string
// written anew.
func rebuilt(raw []byte) any {
	switch jsonscan.KindOf(raw) {
	case '{':
		object := map[string]any{}
		for _, m := range jsonscan.Members(raw) {
			object[m.Name] = rebuilt(m.Value)
		}
		return object
	case '[':
		list := []any{}
		for _, item := range jsonscan.Items(raw) {
			list = append(list, rebuilt(item))
		}
		return list
	case '"':
		return jsonscan.Text(raw)
	case '0':
		return json.Number(raw)
	case 't', 'f':
		return string(raw) == "true"
	}
	return nil
}

func requireSameValue(t *testing.T, text []byte) {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(string(text)))
	d.UseNumber()
	var want any
	require.NoError(t, d.Decode(&want))
	require.Equal(t, want, rebuilt([]byte(strings.Trim(string(text), " \t\r\n"))))
}

// The oracle is encoding/json.
func TestSplit_likeEncodingJSON(t *testing.T) {
	for _, texts := range good {
		for _, text := range texts {
			requireSameValue(t, []byte(text))
		}
	}
	requireSameValue(t, []byte(` { "a" : [ 1 , "]}\\\"" , { } , [ ] ] , "b\n" : { "c" : "\\" } , "d" : -1.5e-3 } `))
}

// Section 3.2.2.2 of RFC 8785: which characters are escaped and how.
func TestAppendText(t *testing.T) {
	assert.Equal(t, `x"\u0000\u0001\b\t\n\u000b\f\r\u000e\u001f \"\\/`+"\x7fé€𝄞\u2028<>&\"",
		string(jsonscan.AppendText([]byte("x"), "\x00\x01\b\t\n\v\f\r\x0e\x1f \"\\/\x7fé€𝄞\u2028<>&")))
	assert.Equal(t, "\"a\ufffdb\"", string(jsonscan.AppendText(nil, "a\xff\xfeb")))
	assert.Equal(t, `""`, string(jsonscan.AppendText(nil, "")))
}

// FuzzCheck: what passes is JSON for encoding/json and holds the same values;
// what is refused is refused there too, but for what the package says it
// refuses on top.
func FuzzCheck(f *testing.F) {
	for _, texts := range good {
		for _, text := range texts {
			f.Add([]byte(text))
		}
	}
	for _, texts := range bad {
		for _, text := range texts {
			f.Add([]byte(text))
		}
	}
	f.Add([]byte(`{"a":1,"a":"\ud800"}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		err := jsonscan.Check(text)
		if err == nil {
			require.True(t, utf8.Valid(text))
			requireSameValue(t, text)
			return
		}
		require.True(t, utf8.ValidString(err.Path))
		switch err.Kind {
		case jsonscan.Malformed, jsonscan.Short, jsonscan.Trailing:
			require.False(t, json.Valid(text), "%q", text)
		}
	})
}

// FuzzAppendText: encoding/json reads what was written.
func FuzzAppendText(f *testing.F) {
	f.Add("a\"\\\n\x00é\xff")
	f.Fuzz(func(t *testing.T, text string) {
		out := jsonscan.AppendText(nil, text)
		var got string
		require.NoError(t, json.Unmarshal(out, &got))
		require.Nil(t, jsonscan.Check(out))
		require.Equal(t, got, jsonscan.Text(out))
		if utf8.ValidString(text) {
			require.Equal(t, text, got)
		}
	})
}
