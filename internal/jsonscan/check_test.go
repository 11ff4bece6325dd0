package jsonscan_test

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/jsonscan"
)

// Texts by the section of RFC 8259 that allows them. encoding/json is the
// second opinion.
var good = map[string][]string{
	"2 any value, blanks around tokens": {
		`0`, `"a"`, `true`, `false`, `null`, `[]`, `{}`, " \t\r\n1 \t\r\n", `[ ]`, "{\n}", `[ 1 , 2 ]`, `{ "a" : 1 , "b" : 2 }`,
	},
	"4 objects": {`{"":0}`, `{"a":{"a":{"a":[]}}}`, `{"a":1,"b":[{"a":1},{"a":1}]}`, `{"a\u0000b":1,"a":2}`},
	"5 arrays":  {`[[],[[]],{}]`, `[1,"a",null,true,false,{}]`, strings.Repeat("[", 100) + strings.Repeat("]", 100)},
	"6 numbers": {
		`-0`, `0.0`, `-0.5`, `10`, `1e5`, `1E+05`, `0e0`, `0E-1`, `123.456e-78`, `1e999`, `-9223372036854775809`, `[0,-1]`,
	},
	"7 strings": {
		`""`, `"\""`, `"\\"`, `"\/"`, `"\b\f\n\r\t"`, `"\u0041\u00e9\u20AC"`, `"\uD834\uDD1E"`, `"\ud834\udd1e"`, `"é€𝄞"`,
		"\"\x7f\"", "\"\u2028\u2029\"", `"\u0000"`, "\"\ufffd\"", "\"\ufeff\"", `"//"`, `"\uDBFF\uDFFF"`,
	},
}

func TestCheck_good(t *testing.T) {
	for section, texts := range good {
		for _, text := range texts {
			assert.Nil(t, jsonscan.Check([]byte(text)), "%s: %s", section, text)
			assert.True(t, json.Valid([]byte(text)), text)
		}
	}
}

// Texts that RFC 8259 does not allow, by what is wrong with them. encoding/json
// refuses them too.
var bad = map[jsonscan.Kind][]string{
	jsonscan.Malformed: {
		`[1,]`, `[,1]`, `[,]`, `[1,,2]`, `[1 2]`, `["a" "b"]`, `[1}`, `{"a":1]`, `]`, `}`, `,`, `:`, // brackets and commas
		`{"a":1,}`, `{,}`, `{1:2}`, `{a:1}`, `{'a':1}`, `{"a"}`, `{"a",1}`, `{"a":}`, `{"a"::1}`, `{"a":1 "b":2}`, `{null:1}`, `{"a":1;}`, // members
		`+1`, `.5`, `[1.]`, `01`, `-01`, `[-]`, `--1`, `1.2.3`, `0x1`, `1_000`, `[1e]`, `[1e+]`, `1e1.5`, `0e+-1`, `[2.e3]`, `[-.5]`, `[1,5;]`, // numbers
		`NaN`, `-NaN`, `Infinity`, `-Infinity`, `inf`, `１`, `1٠`, // numbers that other languages know
		`True`, `TRUE`, `nul]`, `[tru]`, `[nulll]`, `truefalse`, `undefined`, `nil`, // words
		`'a'`, `"\a"`, `"\'"`, `"\x41"`, `"\0"`, `"\u00G0"`, `"\u 041"`, `"\u12"`, `"\U0041"`, "\"\\\n\"", `"\uD834\u00"`, `"\é"`, // escapes
		"\"\n\"", "\"\t\"", "\"\x00\"", "\"\x1f\"", // control characters
		"\x00", "\ufeff{}", "\u00a01", "\v1", "\f1", "[\u20601]", "/**/1", "//\n1", "#1", "[/", `<a/>`, "\xff", "\\u0031", `&`, // no blanks
	},
	jsonscan.Short: {
		``, ` `, "\n", `[`, `{`, `[1`, `[1,`, `{"a"`, `{"a":`, `{"a":1`, `{"a":1,`, `"`, `"a`, `"\`, `"\u`, `"\u004`, `"\uD834`, `"\uD834\`, `"\uD834\u`, `"\"`,
		`-`, `1.`, `1e`, `1e+`, `t`, `tru`, `fals`, `nul`, `[[[`, `{"a":[{"b":"`,
	},
	jsonscan.Trailing: {`1 2`, `{} {}`, `[]]`, `{}}`, `""x`, `null,`, `1,`, `0 1`, "{}\x00", `{}//`, `truee`, `[] #`},
}

func TestCheck_bad(t *testing.T) {
	for kind, texts := range bad {
		for _, text := range texts {
			err := jsonscan.Check([]byte(text))
			if assert.NotNil(t, err, "%q", text) {
				trailing := kind == jsonscan.Malformed && err.Kind == jsonscan.Trailing // "01": 0, and more text
				assert.True(t, err.Kind == kind || trailing, "%q: %d", text, err.Kind)
			}
			assert.False(t, json.Valid([]byte(text)), "%q", text)
		}
	}
}

// What encoding/json accepts and we do not. RFC 7493 section 2.1 has surrogates
// and UTF-8, section 2.3 names.
func TestCheck_stricter(t *testing.T) {
	many := `{`
	for i := range 50 {
		many += `"` + strconv.Itoa(i) + `":0,`
	}
	deep := strings.Repeat("[", jsonscan.MaxDepth+1) + strings.Repeat("]", jsonscan.MaxDepth+1)
	for text, want := range map[string]jsonscan.Error{
		`{"a":1,"a":1}`:                {Kind: jsonscan.Repeated, Path: "a"},
		`{"a":1,"b":1,"\u0061":1}`:     {Kind: jsonscan.Repeated, Path: "a"},
		`[0,{"a":{"b":1,"b":2}}]`:      {Kind: jsonscan.Repeated, Path: "[1].a.b"},
		many + `"7":0}`:                {Kind: jsonscan.Repeated, Path: "7"},
		many + `"49":0}`:               {Kind: jsonscan.Repeated, Path: "49"},
		"\"\xff\"":                     {Kind: jsonscan.NotUTF8},
		"\"\xc0\xaf\"":                 {Kind: jsonscan.NotUTF8}, // longer than needed
		"\"\xed\xa0\x80\"":             {Kind: jsonscan.NotUTF8}, // a surrogate in UTF-8
		"\"\xf4\x90\x80\x80\"":         {Kind: jsonscan.NotUTF8}, // beyond U+10FFFF
		"[\"\xe2\x82\"]":               {Kind: jsonscan.NotUTF8, Path: "[0]"},
		"{\"\xff\":1}":                 {Kind: jsonscan.NotUTF8},
		`{"a":"\uD834"}`:               {Kind: jsonscan.NotUTF8, Path: "a"},
		`"\uDD1E"`:                     {Kind: jsonscan.NotUTF8},
		`"\uDD1E\uD834"`:               {Kind: jsonscan.NotUTF8},
		`"\uD834\u0041"`:               {Kind: jsonscan.NotUTF8},
		`"\uD834\n"`:                   {Kind: jsonscan.NotUTF8},
		`"\uD834\uD834"`:               {Kind: jsonscan.NotUTF8},
		deep:                           {Kind: jsonscan.TooDeep, Path: strings.Repeat("[0]", jsonscan.MaxDepth)},
		strings.Repeat(`{"a":`, 20000): {Kind: jsonscan.TooDeep, Path: strings.Repeat("a.", jsonscan.MaxDepth-1) + "a"},
	} {
		err := jsonscan.Check([]byte(text))
		if assert.NotNil(t, err, "%q", text) {
			assert.Equal(t, want, *err, "%q", text)
		}
	}
}

func TestCheck_where(t *testing.T) {
	long := strings.Repeat("ä", 40)
	for text, want := range map[string]string{
		`{"a":NaN}`:                 "a",
		`{"a":{"b":[0,{"c":+1}]}}`:  "a.b[1].c",
		`[[0,0,[1,]]]`:              "[0][2][1]",
		`{"a":1,}`:                  "",
		`{"a":{"b":1 "c":2}}`:       "a",
		`{"1":{"2":x}}`:             "1.2",
		`{"` + long + `":{"b":x}}`:  strings.Repeat("ä", 30) + "….b",
		`{"a":[` + `"x`:             "a[0]",
		`{"a" 1}`:                   "a",
		`{"a":1}{`:                  "",
		`{"reading":{"steps":[1,]}`: "reading.steps[1]",
	} {
		err := jsonscan.Check([]byte(text))
		if assert.NotNil(t, err, text) {
			assert.Equal(t, want, err.Path, text)
		}
	}
}

// Many names in one object take a time in proportion to their number.
func TestCheck_manyNames(t *testing.T) {
	var text strings.Builder
	text.WriteString(`{"x":0`)
	for i := range 300_000 {
		text.WriteString(`,"` + strconv.Itoa(i) + `":0`)
	}
	text.WriteString(`}`)
	require.Nil(t, jsonscan.Check([]byte(text.String())))
	assert.Len(t, jsonscan.Members([]byte(text.String())), 300_001)
}
